// What is still to be counted, from what the counting pages know.
import {left, overlaid, slot} from '/assets/count/rules.js';

/** The days on which trays lack a figure: [{day, trays}]. */
function days(sheet) {
  const standing = overlaid(sheet.cells, []);
  const at = (tray, day, frame) => standing.get(slot(tray, day, frame));
  return sheet.days.map(day => ({day, trays: left(sheet, at, day).length})).filter(day => day.trays > 0);
}

/** What is left, in sentences. */
export function leftWords(count) {
  const words = days(count).map(({day, trays}) => `Day ${day}: ${trays === 1 ? '1 tray is' : `${trays} trays are`} not counted in full.`);
  const differing = count.conflicts.length;
  return differing === 0 ? words : [...words, differing === 1 ? 'Two people differ about one figure.' : `People differ about ${differing} figures.`];
}
