// In: an item. Out: its plaque, drawn by the desk at each key stroke; the fields of its words and wishes. Never: saves.
import { afterRest, choice, desk, faultBox, field, fill, h, inTurn, length, lines, mapped, mm, number as written, oneLine, picture, press, redraw, say, select, size, small, t, wonder, wordsBox } from './voice.js';

const rest = 600;  // ms before it is told to those who hear
const step = 0.5;  // mm

export const noWish = { design: '', size: 0, nudge_x: 0, nudge_y: 0, lines_kept: false };
const ordered = item => item.design || desk.shop.default_design;
export const designOf = (item, wish = item.wish) => wish?.design || ordered(item);
/// "slate, face script, size 150x100" → its parts.
const parted = design => /^(.*?)(?:, face ([^,]*))?(, size [^,]*)?$/.exec(design).slice(1).map(part => part ?? '');
/// The design and face that are wished; the ordered design is none.
function withoutFace(wished, item) {
  const [base, face, size] = parted(wished);
  return [face && base + size === ordered(item) ? '' : base + size, face];
}
function inFace(design, item, face) {
  if (!face) return design;
  const [base, , size] = parted(design || ordered(item));
  return `${base}, face ${face}${size}`;
}
const askOf = (item, words = item.words, piece = item.piece || item.pinned, wish = item.wish) =>
  ({ number: item.number, words, ...noWish, ...wish, design: designOf(item, wish), ...(piece && { piece }) });

export function measures({ cap_height, stroke, counter, piece, width, height }) {
  const facts = Object.entries({ capitals: [cap_height, 1], stroke: [stroke, 2], counter: [counter, 2] }).filter(([, [value]]) => value > 0);
  return [h('p.measures', facts.map(([name, [value, digits]]) => h('span', t(`fit.${name}`, { mm: mm(value, digits) })))),
    small(piece ? t('fit.on_piece', { piece }) : t`fit.on_nominal`, width > 0 && `, ${size({ width, height })}`)];
}

const remarks = set => ['warnings', 'changes', 'notes'].map(name =>
  set[name]?.length > 0 && h(`div.remarks.${name}`, h('h3', t(`fit.${name}`)), lines(set[name])));

function spoken(set) {
  if (set.fault) return t('fit.say_fault', { what: set.fault.what });
  return t('fit.say', { capitals: mm(set.cap_height), stroke: mm(set.stroke, 2), lines: (set.lines ?? []).length }) +
    (set.warnings?.length ? ` ${t`fit.warnings`}: ${set.warnings.join('. ')}` : '');
}

function stepper(id, name, less, more, typed) {
  const amount = length({ step });
  const button = (by, [arrow, where]) => h('button', { type: 'button', 'aria-label': t(`wish.${where}`, { mm: mm(step) }), onclick: () => {
    amount.value = +amount.value + by;
    typed();
  } }, arrow);
  return [amount, field(id, t(`wish.${name}`), amount, '', h('span.stepper', { dir: 'ltr' }, button(-step, less), amount, button(step, more)))];
}

function wishes(id, wish, typed) {
  const height = length({ min: 0, step });
  const [right, rightField] = stepper(`${id}-x`, 'x', ['←', 'left'], ['→', 'right'], typed);
  const [up, upField] = stepper(`${id}-y`, 'y', ['↓', 'down'], ['↑', 'up'], typed);
  const kept = choice({ type: 'checkbox', id: `${id}-lines` }, t`wish.lines`), box = kept.firstChild;
  const back = (name, inputs) => press(t(`wish.${name}`), () => {
    for (const one of inputs) one.value = '';
    inputs[0].focus();
    typed();
  }, 'small');
  const numbers = { size: height, nudge_x: right, nudge_y: up };
  const put = wish => {
    for (const [name, one] of Object.entries(numbers)) one.value = wish[name] || '';
    box.checked = wish.lines_kept;
  };
  put(wish);
  const node = h('details.own', { open: wish.size > 0 || wish.nudge_x || wish.nudge_y || wish.lines_kept, oninput: typed }, h('summary', t`wish.title`),
    h('div.pair', h('div', field(`${id}-size`, t`wish.size`, height, t`wish.size.hint`), back('largest', [height])), kept, rightField, upField), back('middle', [right, up]));
  return { node, put,
    wish: () => ({ ...mapped(numbers, one => +one.value), lines_kept: box.checked }),
    fitted: set => { height.placeholder = set.cap_height > 0 ? written(set.cap_height, 1) : ''; } };
}

export function setter({ item, words, wish, pieces = [], changed = () => {} }) {
  const id = `set-${item.number}`, view = h('div.view', h('p.no-picture', t`fit.waiting`)), caption = h('figcaption');
  const plaque = h('figure.plaque-figure', view, caption), notes = h('div');
  const area = wordsBox({ rows: Math.min(8, Math.max(3, words.split('\n').length + 1)), spellcheck: 'false', autocomplete: 'off', maxlength: 4000, value: words });
  const [wished, chosenFace] = withoutFace(wish.design, item);
  const oneOf = (chosen, none, ...names) => select(chosen, [['', none], ...new Set([...names, chosen].filter(Boolean))]);
  const others = desk.shop.designs.map(one => one.name).filter(name => name !== ordered(item));
  const design = oneOf(wished, t('fit.as_ordered', { design: ordered(item) }), ...others);
  const piece = oneOf(item.piece || item.pinned, t`fit.any_piece`, ...pieces, item.pinned);
  const face = oneOf(chosenFace, t`fit.any_face`, ...desk.shop.faces);
  let isTyped = false;  // from the first change on it is told
  const tell = afterRest(rest, set => say(spoken(set)));

  const chosenPiece = () => piece.value;
  const chosenWish = () => ({ design: inFace(design.value, item, face.value), ...own.wish() });
  const fit = inTurn('fit', (set, isLast) => {
    const text = set.lines?.length ? set.lines.join(' / ') : oneLine(area.value);
    if (!view.querySelector('svg')) fill(view, picture());
    redraw(view, set.picture, set.fault ? t`fit.bare` : t('fit.picture', { words: text }), !!set.fault && !set.picture);
    fill(caption, faultBox(set.fault) ?? measures(set));
    fill(notes, remarks(set));
    own.fitted(set);
    if (isLast && isTyped) tell(set);
  });
  const ask = () => fit(askOf(item, area.value, chosenPiece(), chosenWish()));
  const typed = () => {
    isTyped = true;
    ask();
    changed();
  };
  const own = wishes(id, wish, typed);
  area.oninput = typed;
  // On a narrow screen the plaque moves to the top of it.
  area.onfocus = () => requestAnimationFrame(() => area.scrollIntoView({ block: 'nearest' }));
  for (const choice of [design, face, piece]) choice.onchange = typed;
  ask();

  return {
    plaque, notes, area, piece: chosenPiece, wish: chosenWish,
    words: () => area.value,
    put: (words, wish) => {
      area.value = words;
      const [base, its] = withoutFace(wish.design, item);
      design.value = base;
      face.value = its;
      own.put(wish);
      typed();
    },
    fields: [
      field(`${id}-words`, t`fit.words`, area, t`fit.words.hint`),
      h('div.pair', design.length > 1 && field(`${id}-design`, t`fit.design`, design), field(`${id}-face`, t`fit.face`, face), pieces.length > 0 && field(`${id}-piece`, t`fit.piece`, piece)),
      own.node,
    ],
  };
}

// ---- small plaques: asked for when they come into sight ----
const lasts = 60_000;  // ms that a picture is kept
const drawn = new Map();
let queue = Promise.resolve();

async function draw({ target: node }) {
  const ask = askOf(node.item), key = JSON.stringify(ask);
  let kept = drawn.get(key);
  if (!kept || Date.now() - kept.at > lasts) {
    if (!node.isConnected) return;
    kept = { at: Date.now(), picture: (await wonder('fit', ask).catch(() => ({}))).picture };
    if (drawn.size > 1000) drawn.clear();
    drawn.set(key, kept);
  }
  if (kept.picture) fill(node, picture(kept.picture, t('fit.picture', { words: oneLine(node.item.words) })));
  else node.remove();
}

const sight = new IntersectionObserver(entries => {
  for (const entry of entries) {
    if (!entry.isIntersecting) continue;
    sight.unobserve(entry.target);
    queue = queue.then(() => draw(entry));
  }
}, { rootMargin: '200px' });

export function smallPlaque(item) {
  const node = Object.assign(h('div.small-plaque'), { item });
  sight.observe(node);
  return node;
}
