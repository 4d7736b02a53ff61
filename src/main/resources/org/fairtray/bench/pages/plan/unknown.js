// Which parts of a plan the form doesn't show: they stay as they are written, and are changed in the text.
import {ASKS} from '/assets/plan/restrictions.js';
import {PARTS, fieldsOf} from '/assets/plan/parts.js';
import {isText} from '/assets/plan/values.js';

const ANY = '*';

/** Where they stand, such as crop › colour. */
export function onlyInText(plan) {
  const known = new Map(PARTS.flatMap(part => paths(part, plan)));
  const above = new Set([...known.keys()].flatMap(key => key.split('\n').map((x, i, all) => all.slice(0, i).join('\n'))));
  return under(plan, [], known, above);
}

/** The paths of a part's fields, each with its kind. */
function paths(part, plan) {
  const base = part.key ? [part.key, ANY] : [];
  const own = fieldsOf(part, plan).filter(f => !f.get).map(f => [[...base, ...f.path].join('\n'), f.kind]);
  return part.key === 'restrictions' ? [...Object.keys(ASKS), 'of'].map(key => [[...base, key].join('\n'), 'text']) : own;
}

function under(value, path, known, above) {
  const key = path.map(p => typeof p === 'number' ? ANY : p).join('\n');
  if (known.has(key)) {
    return canShow(value, known.get(key)) ? [] : [words(path)];
  }
  // The number of the format is always 1.
  if (key === 'format' && value === '1') {
    return [];
  }
  if (!above.has(key) || value === null || typeof value !== 'object') {
    return value === '' && above.has(key) ? [] : [words(path)];
  }
  return Object.entries(value).flatMap(([name, inner]) => under(inner, [...path, Array.isArray(value) ? Number(name) : name], known, above));
}

/** Whether a field of this kind can show a value without losing any of it. */
export function canShow(value, kind) {
  return kind === 'list'
    ? value === '' || Array.isArray(value) && value.every(item => isText(item) && !item.includes(','))
    : typeof value === 'string';
}

function words(path) {
  return path.map(p => typeof p === 'number' ? p + 1 : p).join(' › ');
}
