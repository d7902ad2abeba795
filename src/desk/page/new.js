// In: an empty place. Out: a workshop in it, made of a few answers, with the bed drawn as they are given.
import { done, faultBox, faultOf, field, giver, h, heading, hint, input, onGiven, p, picture, post, row, say, section, select, sentence, small, spokenFault, spread, t } from './voice.js';

const gap = 10;  // mm between the pieces of this picture; the desk lays the bed

function bedPicture({ bed_width, bed_height, piece_width, piece_height, corner_radius, material }) {
  const across = Math.max(0, Math.min(40, Math.floor((bed_width - gap) / (piece_width + gap))));
  const down = Math.max(0, Math.min(40, Math.floor((bed_height - gap) / (piece_height + gap))));
  const count = across * down;
  let pieces = '';
  for (let at = 0; at < count; ++at) {
    pieces += `<rect class="piece" x="${gap + (at % across) * (piece_width + gap)}" y="${gap + Math.floor(at / across) * (piece_height + gap)}" width="${piece_width}" height="${piece_height}" rx="${corner_radius}"/>`;
  }
  const text = count ? t('new.fits', { n: count }) : t('new.fits_none');
  return [picture(`<svg xmlns="http://www.w3.org/2000/svg" class="bed" viewBox="-4 -4 ${bed_width + 8} ${bed_height + 8}"><rect class="bed-edge" width="${bed_width}" height="${bed_height}"/><g class="pocket" data-material="${material}">${pieces}</g></svg>`, text), text];
}

const length = (value, least = 1) => input('number', { min: least, max: 5000, step: 'any', required: true, inputmode: 'decimal', value: String(value) });
const pair = (...fields) => h('div.pair', fields);

export function newPage({ folder, started }) {
  const name = sentence({ required: true, maxlength: 100, placeholder: 'Quernby Watermill' });
  const lengths = { bed_width: length(600), bed_height: length(400), piece_width: length(150), piece_height: length(100), corner_radius: length(0, 0) };
  const material = select('slate', ['slate', 'glass', 'wood', 'brass', 'other'].map((one) => [one, t(`material.${one}`)]));
  const drawn = h('div.view');
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
      done(t('new.made', { name: name.value.trim() }), answer);
    } catch (error) {
      wrong.replaceChildren(faultBox(faultOf(error)));
      say(spokenFault(faultOf(error)));
    }
  }, t('new.making'));
  draw();
  return [t('new.title'), spread('new',
    [heading(t('new.title')), p(t('new.about')), folder && small(t('new.folder'), ' ', h('bdi', { dir: 'ltr' }, folder)), form],
    h('figure.bed-figure', drawn, caption))];
}
