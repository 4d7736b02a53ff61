// What is done to the fields of a tray: typed, stepped, emptied, chosen.
import {earlier, stepped} from '/assets/count/rules.js';

export function fieldActions(state, open, draw, root) {
  const current = () => open.fields[open.current];

  function put(field, text) {
    Object.assign(field, {text, touched: true, fresh: false, refusal: null});
    open.corrections = [];
    draw();
  }

  return {
    hears() {
      const field = current();
      return `${state.sheet.frames > 1 ? `Frame ${field.frame}, ` : ''}${field.column.name}:`;
    },
    focus(i, really = false) {
      open.current = Math.max(0, i);
      current().fresh = true;
      draw();
      if (really) {
        root.querySelector(`#figure-${open.current}`)?.focus({preventScroll: false});
      }
    },
    set(i, text) {
      open.current = i;
      put(open.fields[i], text.trim());
    },
    type(text) {
      const field = current();
      const before = field.fresh ? '' : field.text;
      put(field, (before + text).slice(0, 9).replace(/^0+(?=\d)/, ''));
    },
    rub() {
      put(current(), current().text.slice(0, -1));
    },
    empty() {
      put(current(), '');
    },
    step(by) {
      const field = current();
      const {sheet, at} = state;
      const before = earlier(sheet, at, open.tray, open.day, field.frame, field.column.name);
      put(field, stepped(sheet, before, field.text, by));
    },
    move(by) {
      this.focus(Math.min(open.fields.length - 1, Math.max(0, open.current + by)), true);
    },
    note(text) {
      open.note = text;
      draw();
    },
    seeds(frame, text) {
      Object.assign(open.seeds.find(each => each.frame === frame), {text, touched: true});
      draw();
    },
    takeTheirs(field, now) {
      Object.assign(field, {text: now, touched: false});
      this.keepMine(field);
    },
    keepMine(field) {
      field.view = field.stood;
      open.seen[field.frame] = state.seen(open.tray, open.day, field.frame);
      open.meanwhile = open.meanwhile.filter(each => each.field !== field);
      draw();
    },
  };
}
