// The counts of one trial as this page knows them: what the bench said, with what this phone hasn't sent laid over it.
import {Unreachable, get} from '/assets/api.js';
import {outbox, store} from '/assets/count/sender.js';
import * as rules from '/assets/count/rules.js';

const DAY = 'fairtray.day.';

export class CountState {
  constructor(trial) {
    this.trial = trial;
    this.base = `/api/trials/${encodeURIComponent(trial)}/count`;
    this.cells = new Map();
    this.copyOf = null;
    this.seconds = [];
    this.undo = null;
    this.drafts = new Map();
  }

  /** Fetches all; where the bench can't be reached, takes the copy that this phone kept. */
  async load() {
    try {
      this.take(await get(this.base), true);
      await this.keepCopy();
    } catch (error) {
      const copy = error instanceof Unreachable ? await (await store()).sheet(this.trial) : undefined;
      if (copy === undefined) {
        throw error;
      }
      this.take(copy.answer, true);
      this.copyOf = copy.time;
    }
    this.day ??= this.chosenBefore() ?? this.today;
  }

  /** Asks what changed; says whether the bench answered. */
  async poll() {
    if (this.copyOf !== null) {
      const before = this.day;
      await this.load();
      this.day = before;
      return;
    }
    const answer = await get(`${this.base}/since/${this.last}`);
    const newer = answer.last !== this.last;
    this.take(answer, answer.last < this.last);
    if (newer) {
      await this.keepCopy();
    }
  }

  take(answer, whole = false) {
    if (answer.columns) {
      this.sheet = {...answer, columns: answer.columns.map(column => ({...column, days: column.days ?? []}))};
    }
    if (whole && answer.columns) {
      this.cells.clear();
      this.copyOf = null;
    }
    (answer.cells ?? []).forEach(cell => this.cells.set(rules.slot(cell.tray, cell.day, cell.frame), cell));
    this.conflicts = answer.conflicts ?? this.conflicts ?? [];
    this.photos = answer.photos ?? this.photos ?? [];
    this.last = answer.last ?? this.last ?? 0;
    if ('today' in answer) {
      const today = answer.today;
      this.today = today !== null && typeof today === 'object' ? today.day : today;
      this.todayWhy = today?.why ?? answer.todayWhy ?? this.todayWhy ?? '';
      this.problem = answer.problem ?? null;
      this.opened = answer.opened;
    }
    if ('sownOn' in answer) {
      this.sownOn = answer.sownOn;
    }
    this.lay();
  }

  /** What an answer to counts says; `last` stays, so that the next poll brings what others did meanwhile. */
  answered(answer) {
    answer.results.filter(result => result.cell).forEach(({cell}) =>
      this.cells.set(rules.slot(cell.tray, cell.day, cell.frame), cell));
    this.conflicts = answer.conflicts ?? this.conflicts;
    this.lay();
  }

  lay() {
    this.mine = outbox.entries.filter(entry => entry.trial === this.trial);
    this.standing = rules.overlaid([...this.cells.values()], this.mine.filter(entry => entry.state === 'waiting'));
    this.refused = this.mine.filter(entry => entry.state === 'refused');
  }

  at = (tray, day, frame) => this.standing.get(rules.slot(tray, day, frame));

  /** What the bench itself said last; a count is based on it. */
  seen(tray, day, frame) {
    return this.cells.get(rules.slot(tray, day, frame))?.sequence ?? 0;
  }

  needs(tray, day) {
    return this.conflicts.some(each => each.tray === tray && each.day === day)
      || this.refused.some(({body}) => body.tray === tray && body.day === day);
  }

  mark(tray) {
    return rules.mark(this.sheet, this.at, tray, this.day, this.needs(tray, this.day));
  }

  left() {
    return rules.left(this.sheet, this.at, this.day);
  }

  choose(day) {
    this.day = day;
    this.seconds = [];
    localStorage.setItem(DAY + this.trial, JSON.stringify({day, today: this.today, on: new Date().toDateString()}));
  }

  /** A day chosen on this phone holds as long as the bench's day is the same. */
  chosenBefore() {
    try {
      const {day, today, on} = JSON.parse(localStorage.getItem(DAY + this.trial));
      return today === this.today && on === new Date().toDateString() && this.sheet.days.includes(day) ? day : null;
    } catch {
      return null;
    }
  }

  async keepCopy() {
    const answer = {...this.sheet, cells: [...this.cells.values()], conflicts: this.conflicts, photos: this.photos,
      last: this.last, today: this.today, todayWhy: this.todayWhy, sownOn: this.sownOn, problem: this.problem};
    await (await store()).keepSheet({trial: this.trial, time: Date.now(), answer});
  }
}
