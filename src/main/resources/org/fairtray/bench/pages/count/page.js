// The counting pages: the list of a day's trays, and one tray a screen.
import {html, nothing, render} from '/assets/vendored/lit-html/lit-html.js';
import {send} from '/assets/api.js';
import {sameFrame, stateLine} from '/assets/count/queue.js';
import * as rules from '/assets/count/rules.js';
import * as saving from '/assets/count/saving.js';
import {flush, follow, keep, outbox, refresh, throwAway} from '/assets/count/sender.js';
import {CountState} from '/assets/count/state.js';
import {dayBar, listView} from '/assets/count/list.js';
import {press} from '/assets/count/pad.js';
import * as trays from '/assets/count/tray.js';
import {fieldActions} from '/assets/count/fields.js';

const POLL = 4000;
// Kept while one goes from tray to tray, so that nothing typed is lost and nothing has to be fetched again.
let state = null;

async function show(root, params, app) {
  await refresh();
  if (state?.trial !== params.id) {
    state = new CountState(params.id);
    await state.load();
  }
  if (params.day !== undefined && state.sheet.days.includes(Number(params.day))) {
    state.day = Number(params.day);
  }
  state.lay();
  let staying = null;
  let hidden = 0;
  const known = state.sheet.trays.some(tray => tray.tray === params.tray);
  const draft = `${params.tray}|${state.day}`;
  let open = null;
  if (known && state.day != null) {
    open = state.drafts.get(draft) ?? trays.opened(state, params.tray);
    state.drafts.set(draft, open);
  }
  const link = tray => `/trial/${encodeURIComponent(state.trial)}/tray/${encodeURIComponent(tray)}?day=${state.day}`;
  const list = `/trial/${encodeURIComponent(state.trial)}/count`;

  const actions = {
    may: app.me.role !== 'look',
    tell: app.tell,
    link,
    first: () => rules.next(state.sheet, state.at, state.day, null),
    start() {
      const next = actions.first();
      return next ? app.go(link(next)) : app.tell('Nothing is left on this day.');
    },
    askDay: () => staying !== state.today && state.stayed !== state.today,
    stay() {
      state.stayed = staying = state.today;
      draw();
    },
    choose(day) {
      state.choose(day);
      return open || params.tray ? app.go(link(params.tray)) : draw();
    },
    async sown(date) {
      await tried(async () => {
        await send('POST', `/api/trials/${encodeURIComponent(state.trial)}/sown`, {date});
        await state.load();
        state.day ??= state.today;
      });
    },
    mend: body => {
      state.choose(body.day);
      return app.go(link(body.tray));
    },
    async throwAway(id, body) {
      if (confirm(`Throw away the refused count of ${body.tray}, day ${body.day}? It can't be brought back.`)) {
        await throwAway([id]);
      }
    },
    dropPhoto: id => throwAway([], [id]),
    async settle(conflict, value) {
      const {tray, day, frame, column} = conflict;
      const aside = ['note', 'sown'].includes(column);
      const values = aside ? {} : {[column]: value === '' ? null : value};
      const [fault] = rules.impossible(state.sheet, state.at, tray, day, frame, values);
      const [falls] = rules.quarrels(state.sheet, state.at, tray, day, frame, values);
      if (fault || falls) {
        app.tell(fault?.reason ?? rules.quarrelWords(falls, day, state.today), 'wrong');
        return;
      }
      const seen = Math.max(state.seen(tray, day, frame), conflict.number);
      const body = {tray, day, frame, values, ...(aside ? {[column]: value} : {})};
      await keep(state.trial, [{...body, seen, view: saving.view(state, body), settles: true, saidAt: new Date().toISOString()}]);
      app.tell(`${tray}: ${value || 'empty'} is kept.`);
    },
    async undo() {
      const {tray, back} = state.undo;
      state.undo = null;
      await keep(state.trial, back.map(body => ({...body, seen: state.seen(body.tray, body.day, body.frame),
        view: saving.view(state, body), saidAt: new Date().toISOString()})));
      app.tell(`The figures of ${tray} are as they were before.`);
      draw();
    },
  };
  if (open) {
    Object.assign(actions, fieldActions(state, open, draw, root), {
      previous: () => step(-1),
      skip: () => step(1),
      async save() {
        if (actions.may && !actions.saving) {
          actions.saving = true;
          await tried(save);
          actions.saving = false;
          draw();
        }
      },
      countAgain() {
        const field = open.fields.findIndex(each => each.frame === open.quarrel.frame && each.column.name === open.quarrel.column);
        open.quarrel = null;
        open.corrections = [];
        actions.focus(field, true);
      },
      async correctToo() {
        const stuck = saving.correct(state, open, open.quarrel);
        if (stuck) {
          open.quarrel.stuck = stuck;
          draw();
        } else {
          open.quarrel = null;
          await actions.save();
        }
      },
    });
  }

  async function tried(act) {
    try {
      await act();
    } catch (error) {
      app.tell(error.message, 'wrong');
    }
    draw();
  }

  /** The tray before or after in walking order; what is typed stays typed. */
  function step(by) {
    const order = rules.walked(state.sheet, state.day).map(each => each.tray);
    const next = order[order.indexOf(open.tray) + by];
    if (saving.unsaved(state, open)) {
      app.tell(`What you typed for ${open.tray} is not saved yet; it waits there.`);
    }
    return app.go(next ? link(next) : list);
  }

  async function save() {
    const [fault] = trays.faults(state, open);
    if (fault) {
      app.tell(fault.reason, 'wrong');
      actions.focus(open.fields.findIndex(each => each.frame === fault.frame && each.column.name === fault.column), true);
      return;
    }
    const [wrong] = trays.wrongSeeds(state, open);
    if (wrong) {
      app.tell(wrong.reason, 'wrong');
      open.seedsShown = true;
      draw();
      root.querySelector(`#seeds-${wrong.frame}`).focus();
      return;
    }
    open.quarrel = saving.quarrel(state, open);
    if (open.quarrel) {
      draw();
      root.querySelector('#asked')?.focus();
      return;
    }
    const made = saving.bodies(state, open);
    const mended = state.refused.filter(({body}) => body.tray === open.tray && body.day === open.day).map(each => each.id);
    if (made.length === 0 && open.fields.every(field => field.text === '')) {
      app.tell('Nothing is typed. Use Skip to go on without a figure.');
      return;
    }
    if (made.length > 0 && !await kept(made, mended)) {
      return;
    }
    state.drafts.delete(draft);
    const next = rules.next(state.sheet, state.at, state.day, open.tray);
    await app.go(next ? link(next) : list);
  }

  async function kept(made, mended) {
    const back = saving.former(state, made);
    const spent = saving.seconds(open);
    const sent = await keep(state.trial, made, mended);
    if (!outbox.durable) {
      await sent.sent;
      const lost = outbox.entries.filter(entry => entry.state === 'waiting'
        && made.some(body => sameFrame(body, entry.body)));
      if (lost.length > 0) {
        await throwAway(lost.map(entry => entry.id));
        app.tell('Not saved: the bench did not answer. Stay on this tray and save again.', 'wrong');
        return false;
      }
    }
    state.undo = {tray: open.tray, back};
    state.seconds.push(spent);
    return true;
  }

  function draw() {
    if (!root.isConnected) {
      return;
    }
    const mine = outbox.entries;
    const line = stateLine({waiting: mine.filter(each => each.state === 'waiting').length,
      refused: mine.filter(each => each.state === 'refused').length, photos: outbox.photos.length,
      durable: outbox.durable, trouble: outbox.trouble});
    const back = encodeURIComponent(location.pathname + location.search);
    render(html`<div class="count ${open ? 'one' : ''}">
      <p class="where-kept ${mine.length + outbox.photos.length > 0 ? 'warn' : ''}" role="status">${line}
        ${outbox.paired ? nothing : html`<a class="button" href="/pair?back=${back}">Pair again</a>`}</p>
      ${state.copyOf === null ? nothing : html`<p class="warn">The bench can't be reached. You see what this phone knew at
        ${new Date(state.copyOf).toLocaleString()}; others may have counted since. Counts that you save wait here.</p>`}
      ${state.problem ? html`<p class="warn">${state.problem}</p>` : nothing}
      ${params.tray && !known ? html`<p class="wrong">There is no tray “${params.tray}” in this trial.</p>` : nothing}
      ${open ? html`<div class="row to-list"><a class="button" href=${list}>List</a>
        ${state.undo && actions.may ? html`<button type="button" @click=${actions.undo}>Undo ${state.undo.tray}</button>` : nothing}</div>` : nothing}
      ${dayBar(state, actions)}
      ${open ? trays.trayView(state, open, actions) : listView(state, actions)}
    </div>`, root);
  }

  function changed(answer) {
    if (answer?.trial === state.trial) {
      state.answered(answer);
    }
    state.lay();
    if (open) {
      trays.follow(state, open);
    }
    draw();
  }

  async function poll() {
    if (document.hidden) {
      return;
    }
    try {
      await state.poll();
      if (outbox.trouble && outbox.entries.length + outbox.photos.length > 0) {
        flush();
      } else {
        outbox.trouble = '';
      }
    } catch (error) {
      outbox.trouble = error.message;
      outbox.paired = error.status !== 401;
    }
    changed(null);
  }

  const keys = event => open && actions.may && press(event, actions);
  const view = () => {
    if (document.hidden) {
      hidden = Date.now();
    } else if (hidden > 0) {
      if (open) {
        open.away += Date.now() - hidden;
      }
      hidden = 0;
      poll();
    }
  };
  const unfollow = await follow(changed);
  changed(null);
  document.addEventListener('keydown', keys);
  document.addEventListener('visibilitychange', view);
  const timer = setInterval(poll, POLL);
  app.head(open ? `${open.tray}, day ${open.day}` : state.sheet.trial, open ? undefined : state.trial, 'count');
  if (open) {
    // Two figures that differ stand above the fields, and are to be seen first.
    const differ = state.conflicts.some(each => each.tray === open.tray && each.day === open.day);
    actions.focus(Math.max(0, open.fields.findIndex(field => field.text === '')), !differ);
  }
  return () => {
    clearInterval(timer);
    unfollow();
    document.removeEventListener('keydown', keys);
    document.removeEventListener('visibilitychange', view);
  };
}

export default {title: () => 'Count', style: '/assets/count/count.css', worksAway: true, show};
