// What is still to be counted, from what the counting pages know.

/** The days on which a tray lacks a figure: [{day, trays}]. */
export function left({days, columns, frames, trays, cells}) {
  const has = new Set(cells.flatMap(cell => Object.keys(cell.values).map(name => key(cell.tray, cell.day, cell.frame, name))));
  const done = (tray, day, wanted) => wanted.every(name => {
    for (let frame = 1; frame <= frames; frame++) {
      if (!has.has(key(tray, day, frame, name))) {
        return false;
      }
    }
    return true;
  });
  return days.map(day => {
    const wanted = columns.filter(column => column.days.includes(day)).map(column => column.name);
    return {day, trays: trays.filter(tray => !done(tray.tray, day, wanted)).length};
  }).filter(day => day.trays > 0);
}

function key(...parts) {
  return parts.join('\n');
}

/** The same in sentences. */
export function leftWords(count) {
  const days = left(count).map(({day, trays}) => `Day ${day}: ${trays === 1 ? '1 tray is' : `${trays} trays are`} not counted in full.`);
  const differing = count.conflicts.length;
  return differing === 0 ? days : [...days, differing === 1 ? 'Two people differ about one figure.' : `People differ about ${differing} figures.`];
}
