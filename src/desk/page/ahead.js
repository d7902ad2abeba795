// In: how the machines move, the workshop's stations. Out: settings side by side, the weeks to come: figures with plain bars.
import { begin, change, desk, field, get, giver, given, h, input, leaves, length, list, listed, madeLink, mm, number, p, pages, row, section, shortDate, small, t, turns } from './voice.js';

const turn = here => turns(['time', 'plan'], here);
const span = seconds => t('time.span', { h: Math.floor(seconds / 3600), min: Math.round((seconds % 3600) / 60) });
const date = texts => field(`${texts}-from`, t(`${texts}.from`), input('date', { name: 'date', required: true, value: asked.date ?? desk.shop.date }));
const day = iso => (/^\d{4}-\d\d-\d\d$/.test(iso) ? shortDate(iso) : iso);
/// What was typed last: the page is read anew when it is worked out.
let asked = {};
const ask = (path, more, typed) => {
  asked = { ...asked, ...typed };
  return begin(path, { date: typed.date, ...more });
};

/// A figure, and a bar as long as its share of the longest.
function bar(value, most, text) {
  const line = h('span.bar', { 'aria-hidden': 'true' });
  line.style.inlineSize = `${Math.max(1, (100 * value) / most)}%`;
  return [text, line];
}
const table = (name, heads, rows) => h('div.table', { tabindex: 0, role: 'region', 'aria-label': name }, h('table.figures',
  h('thead', h('tr', heads.map(head => h('th', { scope: 'col' }, head)))),
  h('tbody', rows.map(([first, ...cells]) => h('tr', h('th', { scope: 'row', dir: 'auto' }, first), cells.map(cell => h('td', cell)))))));

function settings(all) {
  const most = Math.max(...all.map(one => one.seconds));
  return section(t`time.side`, table(t`time.side`, ['machine', 'beds', 'bed', 'hour', 'all', 'days', 'done'].map(name => t(`time.${name}`)),
    all.map(one => [`${one.machine} · ${mm(one.pitch, 3)}`, number(one.beds), ...(one.is_whole ? [span(one.a_bed), number(one.plaques_an_hour, 1),
      bar(one.seconds, most, span(one.seconds)), number(one.days), day(one.done)] : [t`time.not_known`])])));
}

const cardFields = ['size', 'piece', 'speed', 'power', 'pitch'];
const cardPart = files => section(t`card.title`, p(t`card.about`),
  h('form', given(async typed => {
    asked = { ...asked, ...typed };
    await change('settings-card', typed, t`card.made`);
  }), h('div.pair', cardFields.map(name => field(`card-${name}`, t(`card.${name}`), input('text', { name, dir: 'ltr', maxlength: 200, autocomplete: 'off', value: asked[name] }), t(`card.${name}.hint`)))),
  row(giver(t`card.make`, '', 'make-card'))), files.length > 0 && list('row', files, name => madeLink('settings-card', name)));

pages.time = async () => {
  const { machines, settings: all, files } = await get('hours');
  const chosen = () => machines.length > 1 ? machines.map(one => one.name).filter(Boolean) : [];
  const work = typed => ask('hours', { machines: chosen(), pitches: typed.pitches.split(/[\s;,]+/).filter(Boolean), hours: +typed.hours }, typed);
  const form = h('form', given(work), h('div.pair',
    field('time-pitches', t`time.pitches`, input('text', { name: 'pitches', dir: 'ltr', inputmode: 'decimal', value: asked.pitches ?? machines[0]?.pitch }), t`time.pitches.hint`),
    field('time-hours', t`time.hours`, length({ name: 'hours', min: 0.1, max: 24, value: asked.hours ?? 8, required: true })), date('time')),
  row(giver(t`time.work_out`, 'main-act', 'work-out')));
  return leaves(t`time.title`, [turn('time'), p(t(machines.length ? 'time.about' : 'time.none')), machines.length > 0 && form],
    [all.length > 0 && settings(all), cardPart(files)]);
};

function told({ plaques, prepared, early, likely, late, runs, stations, needs }) {
  const most = Math.max(...stations.map(one => one.days));
  const names = ['station', 'pieces', 'hours', 'days', 'first', 'last'];
  return [section(t('plan.done', { day: day(likely) }), p(t('plan.spread', { early: day(early), late: day(late), runs })), p(t('plan.prepare', { plaques, prepared }))),
    section(t`plan.stations`, table(t`plan.stations`, names.map(name => t(`plan.${name}`)),
      stations.map(one => [[h('bdi', one.name), one.is_slowest && small(t`plan.slowest`)], number(one.pieces), number(one.hours, 1), bar(one.days, most, number(one.days)), day(one.first), day(one.last)]))),
    listed(t`plan.buy`, 'plain', needs, need => t('plan.need', need))];
}

pages.plan = async () => {
  const { stations, plan, files } = await get('plan');
  const work = typed => ask('plan', typed.plaques && { plaques: +typed.plaques }, typed);
  const form = h('form', given(work), h('div.pair',
    field('plan-plaques', t`plan.plaques`, input('number', { name: 'plaques', min: 1, max: 100000, inputmode: 'numeric', value: asked.plaques, required: !desk.shop.ledger }), desk.shop.ledger && t`plan.plaques.hint`),
    date('plan')), row(giver(t`plan.work_out`, 'main-act', 'work-out')));
  return leaves(t`plan.title`, [turn('plan'), p(t(stations ? 'plan.about' : 'plan.none')), stations > 0 && form, listed(t`proofs.files`, 'row', files, name => madeLink('plan', name))],
    plan && told(plan));
};
