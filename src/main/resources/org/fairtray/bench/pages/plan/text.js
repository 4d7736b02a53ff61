// The text of a plan, read for the form and changed where the form changes it. All else stays as it is written.
import {Document, isCollection, isMap, isScalar, parseDocument} from '/assets/vendored/yaml/dist/index.js';

// With this schema every value is the text that is written: 0.10 stays 0.10, and no is a word.
const AS_WRITTEN = {schema: 'failsafe', keepSourceTokens: true};
const STYLE = {lineWidth: 0, flowCollectionPadding: false};

/** What the form shows; null where the text can't be read or isn't a plan. */
export function read(text) {
  const doc = parseDocument(text, AS_WRITTEN);
  return doc.errors.length > 0 || !isMap(doc.contents) ? null : doc.toJS();
}

/** The text with another value at a path: text, a list of texts, a map of texts, or undefined to take it out. */
export function changed(text, path, value) {
  const doc = parseDocument(text, AS_WRITTEN);
  if (doc.errors.length > 0 || !isMap(doc.contents)) {
    return text;
  }
  const old = doc.getIn(path, true);
  // A text that stands in lines of its own ends where the next key begins: it is written anew with its key.
  if (typeof value === 'string' && isScalar(old) && old.range && old.source !== '' && !old.type?.startsWith('BLOCK')) {
    return value === old.value ? text : text.slice(0, old.range[0]) + scalar(value) + text.slice(old.range[1]);
  }
  if (Array.isArray(value) && old?.flow && old.range && !/[#\n]/.test(text.slice(old.range[0], old.range[1]))) {
    return text.slice(0, old.range[0]) + `[${value.map(scalar).join(', ')}]` + text.slice(old.range[1]);
  }
  const before = part(doc, path[0]);
  if (value === undefined) {
    takeOut(doc, path);
  } else {
    putIn(doc, path, value);
  }
  return respell(text, before, part(doc, path[0]));
}

/** The text with the items of a list in another order, an item more or one fewer. */
export function listed(text, path, change) {
  const doc = parseDocument(text, AS_WRITTEN);
  const before = part(doc, path[0]);
  const list = doc.getIn(path, true);
  if (!isCollection(list)) {
    return changed(text, path, change([]));
  }
  list.items = change([...list.items]).map(item => item?.range || item?.items ? item : doc.createNode(item, {flow: true}));
  if (list.items.length === 0) {
    takeOut(doc, path);
  }
  return respell(text, before, part(doc, path[0]));
}

function putIn(doc, path, value) {
  for (let i = 1; i < path.length; i++) {
    const above = path.slice(0, i);
    if (!isCollection(doc.getIn(above, true))) {
      doc.setIn(above, doc.createNode(typeof path[i] === 'number' ? [] : {}, {flow: i > 1 || typeof path[i] !== 'number'}));
    }
  }
  const node = doc.createNode(value, {flow: true});
  const {comment, commentBefore, spaceBefore} = doc.getIn(path, true) ?? {};
  Object.assign(node, {comment, commentBefore, spaceBefore});
  // Factors, places and the like stand one below the other, each in one line.
  if (path.length === 1 && Array.isArray(value)) {
    node.flow = false;
    node.items.filter(isCollection).forEach(item => Object.assign(item, {flow: true}));
  }
  doc.setIn(path, node);
}

/** Takes a value out, and what is empty without it. */
function takeOut(doc, path) {
  doc.deleteIn(path);
  const above = path.slice(0, -1);
  if (above.length > 0 && typeof above.at(-1) !== 'number' && doc.getIn(above, true)?.items?.length === 0) {
    takeOut(doc, above);
  }
}

/** One of the plan's own keys: where it stands in the text, and how it is written. */
function part(doc, name) {
  const pair = doc.contents.items.find(item => String(item.key) === name);
  if (pair === undefined) {
    return null;
  }
  const own = new Document({}, {schema: 'failsafe'});
  pair.key = isScalar(pair.key) ? pair.key : doc.createNode(pair.key);
  const {commentBefore, spaceBefore} = pair.key;
  pair.key.commentBefore = undefined;
  pair.key.spaceBefore = false;
  own.contents.items = [pair];
  const written = own.toString(STYLE).trimEnd();
  Object.assign(pair.key, {commentBefore, spaceBefore});
  return {from: pair.key.range?.[0], to: (pair.value?.range ?? pair.key.range)?.[1], written};
}

function respell(text, before, after) {
  if (before === null) {
    return after === null ? text : text.trimEnd() + '\n' + after.written + '\n';
  }
  const end = before.from + text.slice(before.from, before.to).trimEnd().length;
  if (after === null) {
    const next = text.indexOf('\n', end);
    return text.slice(0, before.from) + (next < 0 ? '' : text.slice(next + 1));
  }
  return text.slice(0, before.from) + after.written + trailing(text, end, after.written);
}

/** What follows a part; a remark at its end is written with it already. */
function trailing(text, end, written) {
  const line = /^[ \t]*(#[^\n]*)/.exec(text.slice(end));
  return line && written.endsWith(line[1].trimEnd()) ? text.slice(end + line[0].length) : text.slice(end);
}

function scalar(value) {
  const list = new Document([value.replace(/\s+/g, ' ').trim()], {schema: 'failsafe'});
  list.contents.flow = true;
  return list.toString(STYLE).trim().slice(1, -1);
}
