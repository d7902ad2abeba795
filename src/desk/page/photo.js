// In: a photograph of a piece beside the card. Out: the piece as it is drawn over it; its row. Never: finds an edge itself.
import { alone, busy, desk, done, faultBox, field, folded, giver, h, heading, hint, inTurn, input, number, onGiven, p, picture, post, press, row, said, say, section, select, sendFile, sentence, size, slot, spread, t } from './voice.js';

const kinds = { corner: 'xy', chip: 'xywh', area: 'xywhmn', round: 'xywmn' };  // what each is told by: its box, margin, name
const keys = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
const step = 0.5, fine = 0.1;  // mm
let seen = null;  // what the desk saw and the person drew: it stays when the page is read again

const put = (node, properties = {}) => {
  for (const [name, value] of Object.entries(properties)) node.setAttribute(name, value);
  return node;
};
const svg = (tag, properties) => put(document.createElementNS('http://www.w3.org/2000/svg', tag), properties);
const hundredth = (value) => Math.round(value * 100) / 100;
const draft = () => ({ ...seen.words, spots: seen.spots.map(({ kind, x, y, w, h, m = 0, n = '' }) => [kind, x, y, w, h, m, n].join(' ')) });

/// The straightened picture with what is drawn over it, and the numbers of what is in hand.
function drawing(changed) {
  const { photo, width, height, place, view, spots } = seen;
  const over = svg('g'), outline = svg('polygon'), table = svg('svg', { class: 'photo', viewBox: view, role: 'group', 'aria-label': t`photo.table` });
  table.append(svg('image', { href: `/photo?photo=${photo}`, width, height, transform: place }), over);
  over.append(outline);
  let held = spots[0];
  const corners = () => spots.filter(({ kind }) => kind === 'corner');
  const called = (spot) => t('photo.spot', { name: spot.n || t(`photo.${spot.kind}`), n: spots.indexOf(spot) + 1, x: number(spot.x), y: number(spot.y) });
  const title = h('h3');
  const fields = [...'xywhmn'].map((key) => {
    const typed = { on: { input: () => {
      held[key] = key === 'n' ? one.value : Number(one.value);
      if (held.kind === 'round') held.h = held.w;
      draw();
    } } };
    const one = key === 'n' ? sentence(typed) : input('number', { step: 'any', ...typed });
    return { key, one, node: field(`spot-${key}`, t(`photo.${key}`), one) };
  });
  const draw = () => {
    put(outline, { points: corners().map(({ x, y }) => `${x},${-y}`).join(' ') });
    for (const spot of spots) {
      const { kind, x, y, w, h, shape, ring } = spot;
      put(shape, { x, y: -y - h, width: w, height: h, rx: kind === 'round' ? w / 2 : 0 });
      put(ring, { cx: x + w / 2, cy: -y - h / 2, r: (13 * table.viewBox.baseVal.width) / (table.clientWidth || 600), 'aria-label': called(spot), 'data-held': spot === held });
    }
    title.textContent = called(held);
    for (const { key, one, node } of fields) {
      node.hidden = !kinds[held.kind].includes(key);
      if (one !== document.activeElement) one.value = held[key] ?? '';
    }
    changed();
  };
  const move = (spot, x, y) => {
    Object.assign(spot, { x: hundredth(x), y: hundredth(y) });
    draw();
  };
  const show = (spot) => {
    const ring = svg('circle', { tabindex: 0, role: 'button' });
    Object.assign(spot, { ring, shape: svg('rect') });
    over.append(spot.shape, ring);
    ring.onfocus = () => {
      held = spot;
      draw();
    };
    ring.onkeydown = (event) => {
      const way = keys[event.key];
      if (!way) return;
      event.preventDefault();
      const by = event.shiftKey ? fine : step;
      move(spot, spot.x + way[0] * by, spot.y + way[1] * by);
      say(called(spot));
    };
    ring.onpointerdown = (from) => {
      const { x, y } = spot, scale = table.getScreenCTM().a;
      ring.setPointerCapture(from.pointerId);
      ring.onpointermove = (to) => move(spot, x + (to.clientX - from.clientX) / scale, y - (to.clientY - from.clientY) / scale);
      ring.onlostpointercapture = () => (ring.onpointermove = null);
    };
  };
  const add = (kind) => {
    const all = corners(), at = Math.max(0, all.indexOf(held)), onEdge = kind === 'corner' || kind === 'chip';
    const around = onEdge ? [all[at], all[(at + 1) % all.length]] : all, w = kind === 'corner' ? 0 : 20;
    const spot = { kind, w, h: w };
    for (const axis of 'xy') spot[axis] = hundredth(around.reduce((sum, one) => sum + one[axis], -w / 2 * around.length) / around.length);
    spots.splice(onEdge ? spots.indexOf(all[at]) + 1 : spots.length, 0, spot);
    show(spot);
    spot.ring.focus();
  };
  const take = () => {
    if (held.kind === 'corner' && corners().length < 4) return say(t`photo.three`);
    const [{ ring, shape }] = spots.splice(spots.indexOf(held), 1);
    for (const node of [ring, shape]) node.remove();
    spots[0].ring.focus();
  };
  spots.forEach(show);
  requestAnimationFrame(draw);
  const button = (name, work) => press(t(`photo.${name}`), async () => work(), { class: 'small', id: `photo-${name}` });
  return [[table, hint(t('photo.keys', { step: number(step), fine: number(fine) }))],
    section(t`photo.outline`, title, h('div.pair', fields.map(({ node }) => node)), row(button('take', take), Object.keys(kinds).map((kind) => button(`add_${kind}`, () => add(kind)))))];
}

function bench() {
  const view = h('div.view'), facts = p(), { words } = seen;
  const ask = inTurn('try-piece', ({ picture: drawn, width, height, fault }) => {
    if (drawn) view.replaceChildren(picture(drawn, t`photo.drawn`));
    view.classList.toggle('stale', Boolean(fault));
    facts.replaceChildren(fault ? faultBox(fault) : size(width, height));
  });
  const [table, spot] = drawing(() => ask(draft()));
  const boxes = { id: sentence({ required: true }), material: sentence(), thickness: sentence(), note: sentence(),
    glass: select('', ['', 'annealed', 'none'].map((one) => [one, t(`photo.glass.${one}`)])) };
  const word = ([name, one]) => {
    one.value = words[name];
    one.oninput = () => {
      words[name] = one.value;
      ask(draft());
    };
    return field(`piece-${name}`, t(`photo.${name}`), one);
  };
  const form = onGiven(h('form.mend-form', section(t`photo.words`, h('div.pair', Object.entries(boxes).map(word)), view, facts, row(giver(t`photo.add`, 'main-act', 'add-piece')))), async () => {
    const answer = await post('add-piece', draft());
    seen = null;
    history.pushState(null, '', '#/pieces');
    await desk.again();
    done(t('photo.added', { piece: words.id }), answer);
  });
  return [table, [spot, form]];
}

async function look(file) {
  const { spots, id, material, ...rest } = await sendFile('photo', file, false);
  seen = { ...rest, words: { id, material, thickness: '', glass: '', note: '' }, spots: spots.map((text) => text.split(' ')).map(([kind, x, y]) => ({ kind, x: Number(x), y: Number(y), w: 0, h: 0 })) };
  await desk.again();
  say(t('photo.seen', { n: spots.length }));
}

export async function photoPage() {
  const card = (paper, name) => h('a', { href: `/card?paper=${paper}`, download: true }, name);
  const steps = [section(t`photo.card`, p(t`photo.card.text`), row(card('a4', 'A4'), card('letter', 'US Letter'))),
    section(t`photo.picture`, slot('photo', (file, from) => busy(from, t`photo.looking`, () => look(file)), 'photo', 'image/*,.heic,.heif'), hint(t`photo.lens`))];
  const head = heading(t`photo.title`);
  if (!seen) return [t`photo.title`, alone(head, steps)];
  const [table, parts] = bench();
  return [t`photo.title`, spread('item', [head, seen.doubt && said(seen.doubt, 'p', 'reason'), table], [parts, folded(t`photo.other`, steps)])];
}
