// What can be true of counts, and what is still to do. Plain functions: no page, no server.
// `at(tray, day, frame)` gives what stands for a frame: {values, sown, note, sequence, by, time, waiting}, or undefined.

const WHOLE = /^\d{1,9}$/;
const MOST_SEEDS = 1000000;
const DECIMAL = /^\d{1,9}([.,]\d{1,9})?$/;

export function slot(tray, day, frame) {
  return `${tray}|${day}|${frame}`;
}

/** The columns that the plan asks for on a day. */
export function wanted(sheet, day) {
  return sheet.columns.filter(column => column.days.length === 0 || column.days.includes(day));
}

/** A figure as typed: null where nothing is, else text as it is sent; or a reason why it is none. */
export function figure(text, column) {
  const typed = (text ?? '').trim();
  if (typed === '') {
    return {value: null};
  }
  if (column.kind === 'measure') {
    return DECIMAL.test(typed) ? {value: typed.replace(',', '.')} : {reason: `“${typed}” is not a number.`};
  }
  return WHOLE.test(typed) ? {value: String(Number(typed))} : {reason: `“${typed}” is not a whole number.`};
}

/** The seeds in a frame: said on any day, they hold for all; or what is typed of them just now. */
export function seeds(sheet, at, tray, frame, typed) {
  if (typed !== undefined && !Number.isNaN(seedsTyped(sheet, typed))) {
    return seedsTyped(sheet, typed);
  }
  const said = sheet.days.map(day => at(tray, day, frame)?.sown).find(sown => sown);
  return said ? Number(said) : sheet.seedsPerFrame;
}

/** Seeds as typed: nothing means as planned; NaN where it can't be a number of seeds. */
export function seedsTyped(sheet, typed) {
  const text = typed.trim();
  const seeds = text === '' ? sheet.seedsPerFrame : WHOLE.test(text) ? Number(text) : NaN;
  return seeds >= 1 && seeds <= MOST_SEEDS ? seeds : NaN;
}

/** Why so many seeds can't be in a frame: no such number, or fewer than were counted. */
export function seedsFault(sheet, at, tray, frame, typed) {
  const sown = seedsTyped(sheet, typed);
  if (Number.isNaN(sown)) {
    return `“${typed.trim()}” is not a number of seeds.`;
  }
  for (const {name} of sheet.columns.filter(column => column.kind === 'count')) {
    const read = sheet.days.map(day => Number(at(tray, day, frame)?.values[name] ?? 0));
    const most = sheet.cumulative ? Math.max(...read) : read.reduce((sum, each) => sum + each, 0);
    if (most > sown) {
      return `${sown} seeds can't be: ${most} ${name} ${most === 1 ? 'was' : 'were'} counted in this frame.`;
    }
  }
  return '';
}

/** The last reading of a frame before a day: {day, value}; and all so far where counts are new ones only. */
export function earlier(sheet, at, tray, day, frame, column) {
  const read = sheet.days.filter(other => other < day)
    .map(other => ({day: other, value: at(tray, other, frame)?.values[column]}))
    .filter(reading => reading.value != null);
  const last = read.at(-1);
  return last && {...last, total: read.reduce((sum, reading) => sum + Number(reading.value), 0)};
}

/** What plus and minus make of a figure. An empty one starts from the last count where counts can't fall, else from 0. */
export function stepped(sheet, before, text, by) {
  const start = text === '' ? (sheet.cumulative && before ? Number(before.value) : 0) : Number(text);
  return Number.isFinite(start) ? String(Math.max(0, start + by)) : text;
}

/** Why figures of one frame can't be true: [{column, reason}]. `values` is as typed, by column. */
export function impossible(sheet, at, tray, day, frame, values, sown) {
  const known = {...at(tray, day, frame)?.values};
  const found = [];
  for (const column of sheet.columns.filter(each => each.name in values)) {
    const {value, reason} = figure(values[column.name], column);
    if (reason) {
      found.push({column: column.name, reason});
    }
    known[column.name] = reason ? null : value;
  }
  const most = seeds(sheet, at, tray, frame, sown);
  for (const column of sheet.columns.filter(each => each.kind === 'count' && known[each.name] != null)) {
    const reason = sheet.cumulative
      ? tooMany(column, Number(known[column.name]), known, most)
      : tooManyTogether(sheet, at, tray, day, frame, column, known, most);
    if (reason) {
      found.push({column: column.name, reason});
    }
  }
  return found;
}

function tooMany(column, count, known, most) {
  if (count > most) {
    return `${count} ${column.name} can't be: the frame has ${most} seeds.`;
  }
  const whole = column.of && column.of !== 'sown' ? known[column.of] : null;
  return whole != null && count > Number(whole)
    ? `${count} ${column.name} can't be: only ${whole} ${column.of}.`
    : null;
}

function tooManyTogether(sheet, at, tray, day, frame, column, known, most) {
  const on = (other, name) => (other === day ? known : at(tray, other, frame)?.values ?? {})[name];
  const sum = (name, days) => days.reduce((total, other) => total + Number(on(other, name) ?? 0), 0);
  const all = sum(column.name, sheet.days);
  if (all > most) {
    return `All days together make ${all} ${column.name}, but the frame has ${most} seeds.`;
  }
  if (!column.of || column.of === 'sown') {
    return null;
  }
  for (const until of sheet.days.filter(other => other >= day)) {
    const days = sheet.days.filter(other => other <= until);
    const complete = days.every(other => on(other, column.of) != null);
    if (complete && sum(column.name, days) > sum(column.of, days)) {
      return `Up to day ${until} that makes ${sum(column.name, days)} ${column.name}, but only `
        + `${sum(column.of, days)} ${column.of}.`;
    }
  }
  return null;
}

/** Where a running count falls: [{column, value, higher: [{day, value}] before, lower: [{day, value}] after}]. */
export function quarrels(sheet, at, tray, day, frame, values) {
  if (!sheet.cumulative) {
    return [];
  }
  return sheet.columns.filter(column => column.kind === 'count' && column.name in values)
    .map(column => ({column: column.name, value: figure(values[column.name], column).value}))
    .filter(said => said.value != null)
    .map(said => {
      const read = sheet.days.map(other => ({day: other, value: at(tray, other, frame)?.values[said.column]}))
        .filter(reading => reading.value != null && reading.day !== day);
      return {...said,
        higher: read.filter(reading => reading.day < day && Number(reading.value) > Number(said.value)),
        lower: read.filter(reading => reading.day > day && Number(reading.value) < Number(said.value))};
    })
    .filter(said => said.higher.length + said.lower.length > 0);
}

/** A quarrel in words. */
export function quarrelWords(quarrel, day, today) {
  const others = [...quarrel.higher, ...quarrel.lower].map(other => `day ${other.day} said ${other.value}`).join(', ');
  const now = day === today ? `today you say ${quarrel.value}` : `for day ${day} you say ${quarrel.value}`;
  return `${others[0].toUpperCase()}${others.slice(1)}, ${now}. Counts can't fall.`;
}

/** The days to correct so that a quarrel ends, in an order in which no count falls meanwhile. */
export function corrections(quarrel) {
  return [...quarrel.higher.map(other => other.day), ...quarrel.lower.map(other => other.day).reverse()];
}

/** How far a tray is on a day: 'needs', 'waiting', 'done', 'part' or 'open'. */
export function mark(sheet, at, tray, day, needs) {
  const columns = wanted(sheet, day);
  const cells = frames(sheet).map(frame => at(tray, day, frame));
  const read = cells.flatMap(cell => columns.map(column => cell?.values[column.name] != null));
  if (needs) {
    return 'needs';
  }
  if (cells.some(cell => cell?.waiting)) {
    return 'waiting';
  }
  return read.every(Boolean) ? 'done' : read.some(Boolean) ? 'part' : 'open';
}

/** Trays that lack a figure on a day. */
export function left(sheet, at, day) {
  const columns = wanted(sheet, day);
  return sheet.trays.map(tray => tray.tray).filter(tray => frames(sheet).some(frame =>
    columns.some(column => at(tray, day, frame)?.values[column.name] == null)));
}

export function frames(sheet) {
  return Array.from({length: sheet.frames}, (_, i) => i + 1);
}

/** Trays in the order in which they are walked on a day: as they stand, or as they were moved. */
export function walked(sheet, day) {
  const trays = sheet.trays.map(tray => ({tray: tray.tray, where: tray.stands?.[day] ?? tray.where}));
  const walk = sheet.walks?.[day];
  return walk ? walk.map(code => trays.find(each => each.tray === code)) : trays;
}

/** The next tray of the walk that lacks a figure, from the one after `tray` and round. */
export function next(sheet, at, day, tray) {
  const order = walked(sheet, day).map(each => each.tray);
  const from = order.indexOf(tray) + 1;
  const open = new Set(left(sheet, at, day));
  return [...order.slice(from), ...order.slice(0, from)].find(each => open.has(each) && each !== tray);
}

/** How fast it goes, in words; nothing before three trays. A tray left open for long doesn't count. */
export function pace(seconds, trays) {
  const usual = seconds.filter(each => each > 0 && each < 1800);
  if (usual.length < 3) {
    return '';
  }
  const minutes = usual.reduce((sum, each) => sum + each, 0) / usual.length / 60;
  const rest = Math.max(1, Math.round(minutes * trays));
  return `about ${minutes < 10 ? minutes.toFixed(1) : Math.round(minutes)} min a tray`
    + (trays > 0 ? `, ${rest} min left` : '');
}

/** What stands for each frame, with the counts of this phone that aren't sent yet laid over it. */
export function overlaid(cells, waiting) {
  const all = new Map(cells.map(cell => [slot(cell.tray, cell.day, cell.frame), cell]));
  for (const {body} of waiting) {
    const key = slot(body.tray, body.day, body.frame);
    const under = all.get(key) ?? {tray: body.tray, day: body.day, frame: body.frame, sequence: 0, values: {}};
    const values = {...under.values, ...body.values};
    Object.keys(values).filter(name => values[name] == null).forEach(name => delete values[name]);
    all.set(key, {...under, values, note: body.note ?? under.note, sown: body.sown ?? under.sown, waiting: true});
  }
  return all;
}
