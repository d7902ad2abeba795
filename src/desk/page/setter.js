// In: an item, or words alone. Out: its plaque on its piece, drawn anew by the desk at each key stroke, beside the field that
// the words are typed in. Never: sets a text itself; shows an older answer over a newer one; saves.
import { wonder } from './ask.js';
import { faultBox, field, h, list, oneLine, picture, present, said, select } from './dom.js';
import { mm, size, t } from './texts.js';
import { faultOf, say } from './voice.js';

const rest = 600;  // ms without a key stroke before it is told to those who hear
let serial = 0;

/// One request is on its way at a time; of those that wait meanwhile only the last is sent. So answers come in their order,
/// and one that is late all the same is dropped by its number.
function fitter(show) {
  let next = null, isAsking = false, asked = 0, shown = 0;
  const run = async () => {
    isAsking = true;
    while (next) {
      const [number, ask] = next;
      next = null;
      let answer;
      try {
        answer = await wonder('fit', ask, AbortSignal.timeout(8000));
      } catch (error) {
        answer = { ...error.answer, fault: faultOf(error) };
      }
      if (number < shown) continue;
      shown = number;
      show(answer, next === null);
    }
    isAsking = false;
  };
  return (ask) => {
    next = [++asked, ask];
    if (!isAsking) run();
  };
}

function measures(set) {
  const facts = [
    set.cap_height > 0 && t('fit.capitals', { mm: mm(set.cap_height, 1) }),
    set.stroke > 0 && t('fit.stroke', { mm: mm(set.stroke, 2) }),
    set.counter > 0 && t('fit.counter', { mm: mm(set.counter, 2) }),
  ].filter(Boolean);
  const where = [set.piece ? t('fit.on_piece', { piece: set.piece }) : t('fit.on_nominal'), set.width > 0 && size(set.width, set.height)];
  return [h('p', { class: 'measures' }, facts.map((fact) => h('span', {}, fact))), h('p', { class: 'by' }, where.filter(Boolean).join(', '))];
}

const remarks = (title, lines, kind = '') =>
  lines?.length > 0 && h('div', { class: `remarks ${kind}` }, h('h3', {}, title), list('plain', lines.map((line) => said(line, 'li'))));

function spoken(set) {
  if (set.fault) return t('fit.say_fault', { what: set.fault.what });
  return t('fit.say', { capitals: mm(set.cap_height, 1), stroke: mm(set.stroke, 2), lines: (set.lines ?? []).length }) +
    (set.warnings?.length ? ` ${t('fit.warnings')}: ${set.warnings.join('. ')}` : '');
}

/// `designs` as the shop has them; `pieces` as the item may have them. `changed` hears of each key stroke.
/// It gives: plaque, a figure; fields; words(), design(), piece(); refit(); area, where the words are typed.
export function setter({ number, words, design, piece, designs = [], pieces = [], changed = () => {} }) {
  const id = `set-${++serial}`;
  const view = h('div', { class: 'view' }, h('p', { class: 'no-picture' }, t('fit.waiting')));
  const caption = h('figcaption');
  const plaque = h('figure', { class: 'plaque-figure' }, view, caption);
  const notes = h('div', { class: 'set-notes' });
  const area = h('textarea', { dir: 'auto', lang: '', rows: Math.min(8, Math.max(3, words.split('\n').length + 1)), spellcheck: 'false', autocomplete: 'off', maxlength: 4000, value: words });
  const names = [...new Set([design, ...designs.map((one) => one.name)])].filter(Boolean);
  const designs_ = names.length > 1 && select(design, names.map((one) => [one, one]));
  const pieces_ = pieces.length > 0 &&
    select(piece, [['', t('fit.any_piece')], ...[...new Set([...pieces, piece])].filter(Boolean).map((one) => [one, one])]);
  let telling = 0;

  const show = (set, isLast) => {
    const text = set.lines?.length ? set.lines.join(' / ') : oneLine(area.value);
    if (set.picture) view.replaceChildren(picture(set.picture, t('fit.picture', { words: text })));
    else if (!view.querySelector('svg')) view.replaceChildren(h('p', { class: 'no-picture' }, t('no_picture')));
    view.classList.toggle('stale', Boolean(set.fault));
    caption.replaceChildren(...(set.fault ? [faultBox(set.fault)] : measures(set)));
    notes.replaceChildren(...present([remarks(t('fit.warnings'), set.warnings, 'warn'), remarks(t('fit.changes'), set.changes), remarks(t('fit.notes'), set.notes)]));
    if (!isLast || !telling) return;
    clearTimeout(telling);
    telling = setTimeout(() => say(spoken(set)), rest);
  };
  const fit = fitter(show);
  const ask = () => {
    const what = { words: area.value };
    if (number) what.number = number;
    const chosen = { design: designs_ ? designs_.value : design, piece: pieces_ ? pieces_.value : piece };
    for (const [name, value] of Object.entries(chosen)) if (value) what[name] = value;
    fit(what);
  };
  const typed = () => {
    clearTimeout(telling);
    telling = setTimeout(() => {}, 0);  // from the first key stroke on it is told
    ask();
    changed();
  };
  area.addEventListener('input', typed);
  // On a narrow screen the plaque moves to the top of it, and the field from under it.
  area.addEventListener('focus', () => requestAnimationFrame(() => area.scrollIntoView({ block: 'nearest' })));
  for (const choice of [designs_, pieces_]) if (choice) choice.addEventListener('change', typed);
  ask();

  return {
    plaque, notes, area, refit: ask,
    words: () => area.value,
    design: () => (designs_ ? designs_.value : design),
    piece: () => (pieces_ ? pieces_.value : piece),
    put: (text) => { area.value = text; typed(); },
    fields: [
      field(`${id}-words`, t('fit.words'), area, t('fit.words.hint')),
      (designs_ || pieces_) && h('div', { class: 'pair' },
        designs_ && field(`${id}-design`, t('fit.design'), designs_),
        pieces_ && field(`${id}-piece`, t('fit.piece'), pieces_)),
    ],
  };
}

// ---- small plaques in lists: each is asked for when it comes into sight, one after the other ----
const lasts = 60_000;  // ms that a picture is kept: a design or a piece may change behind it
const drawn = new Map();
const queue = [];
let isDrawing = false;

const askOf = ({ number, words, design, piece }) => ({ number, words, ...(design && { design }), ...(piece && { piece }) });
const known = (item) => {
  const kept = drawn.get(JSON.stringify(askOf(item)));
  return kept && Date.now() - kept.at < lasts ? kept.picture : undefined;
};
function put(node, item, svg) {
  if (svg) node.replaceChildren(picture(svg, t('fit.picture', { words: oneLine(item.words) })));
  else node.classList.add('none');
}

async function drawAll() {
  isDrawing = true;
  while (queue.length) {
    const [node, item] = queue.shift();
    if (!node.isConnected) continue;
    let svg = known(item);
    if (svg === undefined) {
      svg = (await wonder('fit', askOf(item), AbortSignal.timeout(8000)).catch(() => ({}))).picture ?? '';
      if (drawn.size > 1000) drawn.clear();
      drawn.set(JSON.stringify(askOf(item)), { at: Date.now(), picture: svg });
    }
    put(node, item, svg);
  }
  isDrawing = false;
}

const sight = new IntersectionObserver((entries) => {
  for (const entry of entries) {
    if (!entry.isIntersecting) continue;
    sight.unobserve(entry.target);
    queue.push([entry.target, entry.target.item]);
  }
  if (queue.length && !isDrawing) drawAll();
}, { rootMargin: '200px' });

export function smallPlaque(item) {
  const node = h('div', { class: 'small-plaque' });
  const svg = known(item);
  if (svg !== undefined) put(node, item, svg);
  else sight.observe(Object.assign(node, { item }));
  return node;
}
