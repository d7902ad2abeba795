// In: a photograph of a piece beside the card. Out: the piece as it is drawn over it; its row. Never: finds an edge itself.
import { change, desk, faultBox, field, fill, folded, given, giver, h, hint, inTurn, leaf, leaves, length, number, p, pages, press, reasonLine, redraw, row, say, section, sendFile, sentence, size, slot, t } from './voice.js';

const kinds = { corner: 'xy', chip: 'xywh', area: 'xywhmn', round: 'xywmn' };  // told by box, margin, name
const keys = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
let seen = null;  // what the desk saw and the person drew

const put = (node, properties) => Object.entries(properties).forEach(([name, value]) => node.setAttribute(name, value));
const svg = (tag, properties = {}, ...children) => {
  const node = document.createElementNS('http://www.w3.org/2000/svg', tag);
  put(node, properties);
  node.append(...children);
  return node;
};
const draft = () => ({ ...seen.words, spots: seen.spots.map(({ kind, x, y, w, h, m, n }) => [kind, x, y, w, h, m, n].join(' ')) });

function drawing({ photo, width, height, place, view, spots }, changed) {
  const outline = svg('polygon'), over = svg('g', {}, outline), title = h('h3');
  const table = svg('svg', { class: 'photo', viewBox: view, role: 'group', 'aria-label': t`photo.table` },
    svg('image', { href: `/photo?photo=${photo}`, width, height, transform: place }), over);
  const corners = () => spots.filter(({ kind }) => kind === 'corner');
  const called = spot => t('photo.spot', { name: spot.n || t(`photo.${spot.kind}`), n: spots.indexOf(spot) + 1, x: number(spot.x), y: number(spot.y) });
  let held = spots[0];
  const fields = [...'xywhmn'].map(key => {
    const typed = { oninput: () => change(held, { [key]: key === 'n' ? one.value : +one.value }) };
    const one = key === 'n' ? sentence(typed) : length({ inputmode: null, ...typed });
    return [key, one, field(`spot-${key}`, t(`photo.${key}`), one)];
  });
  const draw = () => {
    put(outline, { points: corners().map(({ x, y }) => `${x},${-y}`).join(' ') });
    for (const spot of spots) {
      const { kind, x, y, w, h } = spot;
      put(spot.shape, { x, y: -y - h, width: w, height: h, rx: kind === 'round' ? w / 2 : 0 });
      put(spot.ring, { cx: x + w / 2, cy: -y - h / 2, r: (13 * table.viewBox.baseVal.width) / (table.clientWidth || 600), 'aria-label': called(spot), 'data-held': spot === held });
    }
    title.textContent = called(held);
    for (const [key, one, node] of fields) {
      node.hidden = !kinds[held.kind].includes(key);
      if (one !== document.activeElement) one.value = held[key];
    }
    changed();
  };
  const change = (spot, now) => {
    Object.assign(spot, now);
    if (spot.kind === 'round') spot.h = spot.w;
    draw();
  };
  const move = (spot, x, y) => change(spot, { x: Math.round(x * 100) / 100, y: Math.round(y * 100) / 100 });
  const show = spot => {
    const ring = svg('circle', { tabindex: 0, role: 'button' });
    Object.assign(spot, { ring, shape: svg('rect') });
    over.append(spot.shape, ring);
    ring.onfocus = () => {
      held = spot;
      draw();
    };
    ring.onkeydown = event => {
      const way = keys[event.key], by = event.shiftKey ? 0.1 : 0.5;  // mm
      if (!way) return;
      event.preventDefault();
      move(spot, spot.x + way[0] * by, spot.y + way[1] * by);
      say(called(spot));
    };
    ring.onpointerdown = from => {
      const { x, y } = spot, scale = table.getScreenCTM().a;
      ring.setPointerCapture(from.pointerId);
      ring.onpointermove = to => move(spot, x + (to.clientX - from.clientX) / scale, y - (to.clientY - from.clientY) / scale);
      ring.onlostpointercapture = () => (ring.onpointermove = null);
    };
  };
  /// A corner or a chip comes to the edge behind the corner in hand, else to the middle.
  const add = kind => {
    const all = corners(), at = Math.max(0, all.indexOf(held)), w = kind === 'corner' ? 0 : 20;
    const around = kinds[kind].includes('m') ? all : [all[at], all[(at + 1) % all.length]];
    const middle = axis => around.reduce((sum, one) => sum + one[axis], 0) / around.length - w / 2;
    const spot = { kind, w, h: w, m: 0, n: '' };
    spots.splice(kind === 'corner' ? spots.indexOf(all[at]) + 1 : spots.length, 0, spot);
    show(spot);
    move(spot, middle('x'), middle('y'));
    spot.ring.focus();
  };
  const take = () => {
    if (held.kind === 'corner' && corners().length < 4) return say(t`photo.three`);
    held.ring.remove();
    held.shape.remove();
    spots.splice(spots.indexOf(held), 1);
    spots[0].ring.focus();
  };
  spots.forEach(show);
  requestAnimationFrame(draw);
  const button = (name, work) => press(t(`photo.${name}`), work, 'small', `photo-${name}`);
  return [[table, hint(t`photo.keys`)],
    section(t`photo.outline`, title, h('div.pair', fields.map(([, , node]) => node)), row(button('take', take), Object.keys(kinds).map(kind => button(`add_${kind}`, () => add(kind)))))];
}

function bench() {
  const view = h('div.view'), facts = p(), { words } = seen;
  const ask = inTurn('try-piece', ({ fault, ...piece }) => {
    redraw(view, piece.picture, t`photo.drawn`, !!fault);
    fill(facts, faultBox(fault) ?? size(piece));
  });
  const changed = () => seen && ask(draft());
  const boxes = Object.entries(words).map(([name, value]) =>
    field(`piece-${name}`, t(`photo.${name}`), sentence({ value, required: name === 'id', oninput: ({ target }) => {
      words[name] = target.value;
      changed();
    } })));
  const [table, spot] = drawing(seen, changed);
  const keep = () => change('add-piece', draft(), t('photo.added', { piece: words.id }), () => {
    seen = null;
    history.pushState(null, '', '#/pieces');
    return desk.again();
  });
  return [table, [spot, h('form.mend-form', given(keep), section(t`photo.words`, h('div.pair', boxes), view, facts, row(giver(t`photo.add`, 'main-act', 'add-piece'))))]];
}

async function look(file) {
  seen = await sendFile('photo', file, false);
  await desk.again();
  say(t('photo.seen', { n: seen.spots.length }));
}

pages.photo = async () => {
  const title = t`photo.title`;
  const steps = [section(t`photo.card`, p(t`photo.card.text`), row(['a4', 'letter'].map(paper => h('a', { href: `/card?paper=${paper}`, download: true }, t(`photo.${paper}`))))),
    section(t`photo.picture`, slot('photo', t`photo.looking`, look, 'photo', 'image/*,.heic,.heif'), hint(t`photo.lens`))];
  if (!seen) return leaf(title, steps);
  const [table, parts] = bench();
  return leaves(title, [reasonLine(seen.doubt), table], [parts, folded(t`photo.other`, steps)], 'item');
};
