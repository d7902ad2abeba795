// In: an empty place. Out: a workshop in it, made of a few answers, with the bed drawn as they are given.
import { post } from './ask.js';
import { faultBox, field, h, heading, hint, input, p, row, section, select, sentence, small, spread } from './dom.js';
import { t } from './texts.js';
import { done, faultOf, giver, onGiven, say, spokenFault } from './voice.js';

const space = 'http://www.w3.org/2000/svg';
const gap = 10;  // mm between the pieces of this picture; the desk lays the bed

function svg(tag, attributes, parent) {
  const node = document.createElementNS(space, tag);
  for (const [name, value] of Object.entries(attributes)) node.setAttribute(name, String(value));
  parent?.append(node);
  return node;
}

function bedPicture({ bed_width, bed_height, piece_width, piece_height, corner_radius, material }) {
  const bed = svg('svg', { class: 'bed', viewBox: `-4 -4 ${bed_width + 8} ${bed_height + 8}`, role: 'img' });
  svg('rect', { class: 'bed-edge', width: bed_width, height: bed_height }, bed);
  const columns = Math.min(40, Math.floor((bed_width - gap) / (piece_width + gap)));
  const rows = Math.min(40, Math.floor((bed_height - gap) / (piece_height + gap)));
  for (let row = 0; row < rows; ++row) {
    for (let column = 0; column < columns; ++column) {
      const piece = svg('g', { class: 'pocket', 'data-material': material }, bed);
      svg('rect', { class: 'piece', x: gap + column * (piece_width + gap), y: gap + row * (piece_height + gap),
        width: piece_width, height: piece_height, rx: Math.min(corner_radius, piece_width / 2, piece_height / 2) }, piece);
    }
  }
  const count = Math.max(0, columns) * Math.max(0, rows);
  const text = count ? t('new.fits', { n: count }) : t('new.fits_none');
  bed.setAttribute('aria-label', text);
  return [bed, text];
}

const length = (value, least = 1) => input('number', { min: least, max: 5000, step: 'any', required: true, inputmode: 'decimal', value: String(value) });
const pair = (...fields) => h('div', { class: 'pair' }, fields);

export function newPage({ folder, started }) {
  const name = sentence({ required: true, maxlength: 100, placeholder: 'Quernby Watermill' });
  const lengths = { bed_width: length(600), bed_height: length(400), piece_width: length(150), piece_height: length(100), corner_radius: length(0, 0) };
  const material = select('slate', ['slate', 'glass', 'wood', 'brass', 'other'].map((one) => [one, t(`material.${one}`)]));
  const drawn = h('div', { class: 'view' });
  const caption = h('figcaption');
  const wrong = h('div');
  const values = () => ({ ...Object.fromEntries(Object.entries(lengths).map(([key, one]) => [key, Number(one.value)])), material: material.value });
  const draw = () => {
    if (!Object.values(lengths).every((one) => one.checkValidity())) return;
    const [bed, text] = bedPicture(values());
    drawn.replaceChildren(bed);
    caption.textContent = text;
  };
  const form = h('form', { on: { input: draw } },
    section(t('new.shop'), field('new-name', t('new.name'), name, t('new.name.hint'))),
    section(t('new.bed'), hint(t('new.bed.hint')), pair(field('new-bed-width', t('new.width'), lengths.bed_width), field('new-bed-height', t('new.height'), lengths.bed_height))),
    section(t('new.piece'), hint(t('new.piece.hint')), pair(
      field('new-piece-width', t('new.width'), lengths.piece_width), field('new-piece-height', t('new.height'), lengths.piece_height),
      field('new-corner', t('new.corner'), lengths.corner_radius), field('new-material', t('new.material'), material))),
    wrong, row(giver(t('new.make'), 'main-act big')));
  onGiven(form, async () => {
    wrong.replaceChildren();
    try {
      const answer = await post('new', { name: name.value.trim(), ...values(), ...(material.value === 'other' && { material: '' }) });
      await started();
      done(t('new.made', { name: name.value.trim() }), { answer });
    } catch (error) {
      wrong.replaceChildren(faultBox(faultOf(error)));
      say(spokenFault(faultOf(error)));
    }
  }, t('new.making'));
  draw();
  return [t('new.title'), spread('new',
    [heading(t('new.title')), p(t('new.about')), folder && small(t('new.folder'), ' ', h('bdi', { dir: 'ltr' }, folder)), form],
    h('figure', { class: 'bed-figure' }, drawn, caption))];
}
