// In: an empty place. Out: a workshop in it, made of a few answers, with the bed drawn as they are given.
import { done, field, given, giver, h, hint, leaves, length, named, p, picture, post, row, section, select, sentence, small, t } from './voice.js';

const gap = 10;  // mm between the pieces of this picture; the desk lays the bed

function bedPicture({ bed_width, bed_height, piece_width, piece_height, corner_radius, material }) {
  const across = Math.max(0, Math.min(40, Math.floor((bed_width - gap) / (piece_width + gap))));
  const down = Math.max(0, Math.min(40, Math.floor((bed_height - gap) / (piece_height + gap))));
  const count = across * down;
  let pieces = '';
  for (let at = 0; at < count; ++at) {
    pieces += `<rect class="piece" x="${gap + (at % across) * (piece_width + gap)}" y="${gap + Math.floor(at / across) * (piece_height + gap)}" width="${piece_width}" height="${piece_height}" rx="${corner_radius}"/>`;
  }
  const text = count ? t('new.fits', { n: count }) : t`new.fits_none`;
  return [picture(`<svg xmlns="http://www.w3.org/2000/svg" class="bed" viewBox="-4 -4 ${bed_width + 8} ${bed_height + 8}"><rect class="bed-edge" width="${bed_width}" height="${bed_height}"/><g class="pocket" data-material="${material}">${pieces}</g></svg>`, text), text];
}

export function newPage({ folder, started }) {
  const name = sentence({ required: true, maxlength: 100, placeholder: 'Quernby Watermill' });
  const lengths = {};
  const side = (key, label, value, min = 1) => {
    lengths[key] = length({ min, max: 5000, required: true, value });
    return field(`new-${key.replace('_', '-')}`, label, lengths[key]);
  };
  const material = select('slate', ['slate', 'glass', 'wood', 'brass', 'other'].map((one) => [one, named('material', one)]));
  const drawn = h('div.view');
  const caption = h('figcaption');
  const values = () => ({ ...Object.fromEntries(Object.entries(lengths).map(([key, one]) => [key, Number(one.value)])), material: material.value });
  const draw = () => {
    if (!Object.values(lengths).every((one) => one.checkValidity())) return;
    const [bed, text] = bedPicture(values());
    drawn.replaceChildren(bed);
    caption.textContent = text;
  };
  const make = async () => {
    const answer = await post('new', { name: name.value.trim(), ...values(), ...(material.value === 'other' && { material: '' }) });
    await started();
    done(t('new.made', { name: name.value.trim() }), answer);
  };
  const form = h('form', given(make, t`new.making`),
    section(t`new.shop`, field('new-name', t`new.name`, name, t`new.name.hint`)),
    section(t`new.bed`, hint(t`new.bed.hint`), h('div.pair', side('bed_width', t`new.width`, 600), side('bed_height', t`new.height`, 400))),
    section(t`new.piece`, hint(t`new.piece.hint`), h('div.pair', side('piece_width', t`new.width`, 150), side('piece_height', t`new.height`, 100),
      side('corner_radius', t`new.corner`, 0, 0), field('new-material', t`new.material`, material))),
    row(giver(t`new.make`, 'main-act big')));
  form.addEventListener('input', draw);
  draw();
  return leaves(t`new.title`, 'new', [p(t`new.about`), folder && small(t`new.folder`, ' ', h('bdi', { dir: 'ltr' }, folder)), form],
    h('figure.bed-figure', drawn, caption));
}
