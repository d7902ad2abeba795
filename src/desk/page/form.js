// In: shop.toml, a design's file, a piece's row. Out: its fields beside what they make, drawn by the desk at each change.
import { measures } from './setter.js';
import { address, afterRest, change, desk, faultBox, field, fill, folded, get, given, giver, h, hint, inTurn, leaves, length, lines, mapped, named, p, pages, picture, press, redraw, row, say, section, select, sentence, size, small, spokenFault, t, wordsBox } from './voice.js';

const open = new Map();  // pages with what is not saved

function fieldOf({ name, table, label, kind, usual, value, choices }) {
  const now = value || usual;
  const box = choices.length ? select(now, [...new Set([...choices, now])].map(one => [one, named(kind, one)])) :
    h(kind === 'textarea' ? kind : 'input', { type: kind, value, placeholder: usual, dir: 'auto', step: 'any', checked: now === 'true' });
  return { name, table, box, node: field(`field-${name}`, named('field', label), box, named('hint', label).replace(label, '')), now: () => (kind === 'checkbox' ? `${box.checked}` : box.value) };
}

function copyForm(from) {
  const copy = async ({ name }) => {
    await change('copy-design', { from, name }, t('design.copied', { name }));
    location.hash = address('design', name);
  };
  return h('form.inline', given(copy), field('copy-name', t`design.copy.name`, sentence({ name: 'name', required: true })), giver(t`design.copy`));
}

for (const kind of ['design', 'settings', 'measure']) pages[kind] = async ({ name }) => {
  const key = kind + name, title = t(`${kind}.${name ? 'one' : 'title'}`, { name });
  if (open.has(key)) return open.get(key);
  const file = await get(kind, { name });
  const fields = file.fields.map(fieldOf), view = h('div.view'), caption = h('figcaption'), wrong = h('div');
  const source = h('textarea.source', { rows: 18, dir: 'ltr', value: file.text, 'aria-label': file.file });
  const words = wordsBox({ value: file.words });
  let isOwn = false;
  const tell = afterRest(600, text => acts.hidden || say(text));
  const ask = () => ({ name, digest: file.digest, words: words.value, ...(isOwn ? { text: source.value } : { names: fields.map(one => one.name), values: fields.map(one => one.now()) }) });
  const attempt = inTurn(`try-${kind}`, answer => {
    const { fault, at, text, unused = [], remark, pockets, set = answer } = answer;
    redraw(view, set.picture, title, !!fault);
    if (!fault) fill(caption, set.lines ? [measures(set), lines(set.warnings)] : p(size(set), pockets && t('form.pieces', { n: pockets })), faultBox(remark ?? set.fault));
    if (text && !isOwn) source.value = text;
    fill(wrong, faultBox(fault));
    caption.after(wrong);
    for (const { name, node, box } of fields) {
      node.hidden = unused.includes(name);
      box.ariaInvalid = !!fault && name === at;
      if (name === at) node.append(wrong);
    }
    tell(fault ? spokenFault(fault) : caption.textContent);
  });
  const leave = () => open.delete(key) && desk.again();
  const acts = row(h('button.main-act', { form: 'fields', id: 'save-form' }, t(`${kind}.save`, file)), press(t`form.back`, leave));
  acts.hidden = true;
  const parts = h('fieldset', [...Map.groupBy(fields, one => one.table)].map(([table, some]) => section(table.replace(/\w+/, one => named('form', one)), h('div.pair', some.map(one => one.node)))));
  const save = () => change(`save-${kind}`, ask(), t(`${kind}.saved`, file), leave);
  const form = h('form.own', { id: 'fields', ...given(save) }, parts, file.text && folded(t('form.source', file), source));
  const [, body] = leaves(title, [h('figure.plaque-figure.own', view, caption, acts), file.words && field('form-words', t`form.words`, words)], [form, kind === 'design' && copyForm(name)], 'item');
  body.oninput = ({ target }) => {
    parts.disabled = isOwn ||= target === source;
    acts.hidden &&= !form.contains(target);
    if (!acts.hidden) open.set(key, [title, body]);
    attempt(ask());
  };
  attempt(ask());
  return [title, body];
};

// ---- an empty place becomes a workshop ----
const gap = 10;  // mm

function bedPicture({ bed_width, bed_height, piece_width, piece_height, corner_radius, material }) {
  const fitting = (bed, piece) => Math.max(0, Math.min(40, Math.floor((bed - gap) / (piece + gap))));
  const across = fitting(bed_width, piece_width), count = across * fitting(bed_height, piece_height);
  const pieces = Array.from({ length: count }, (_, at) => `<rect class="piece" x="${gap + (at % across) * (piece_width + gap)}" y="${gap + Math.floor(at / across) * (piece_height + gap)}" width="${piece_width}" height="${piece_height}" rx="${corner_radius}"/>`).join('');
  const text = count ? t('new.fits', { n: count }) : t`new.fits_none`;
  return [picture(`<svg xmlns="http://www.w3.org/2000/svg" class="bed" viewBox="-4 -4 ${bed_width + 8} ${bed_height + 8}"><rect class="bed-edge" width="${bed_width}" height="${bed_height}"/><g class="pocket" data-material="${material}">${pieces}</g></svg>`, text), text];
}

export function newPage({ folder, started }) {
  const name = sentence({ required: true, maxlength: 100, placeholder: 'Quernby Watermill' }), lengths = {};
  const side = (key, label, value, min = 1) => {
    lengths[key] = length({ min, max: 5000, required: true, value });
    return field(`new-${key.replace('_', '-')}`, label, lengths[key]);
  };
  const material = select('slate', ['slate', 'glass', 'wood', 'brass', 'other'].map(one => [one, named('material', one)]));
  const drawn = h('div.view'), caption = h('figcaption');
  const values = () => ({ ...mapped(lengths, one => +one.value), material: material.value });
  const draw = () => {
    if (!Object.values(lengths).every(one => one.checkValidity())) return;
    const [bed, text] = bedPicture(values());
    fill(drawn, bed);
    caption.textContent = text;
  };
  const make = () => change('new', { name: name.value.trim(), ...values(), ...(material.value === 'other' && { material: '' }) },
    t('new.made', { name: name.value.trim() }), started);
  const form = h('form', given(make, t`new.making`),
    section(t`new.shop`, field('new-name', t`new.name`, name, t`new.name.hint`)),
    section(t`new.bed`, hint(t`new.bed.hint`), h('div.pair', side('bed_width', t`new.width`, 600), side('bed_height', t`new.height`, 400))),
    section(t`new.piece`, hint(t`new.piece.hint`), h('div.pair', side('piece_width', t`new.width`, 150), side('piece_height', t`new.height`, 100),
      side('corner_radius', t`new.corner`, 0, 0), field('new-material', t`new.material`, material))),
    row(giver(t`new.make`, 'main-act big')));
  form.oninput = draw;
  draw();
  return leaves(t`new.title`, [p(t`new.about`), folder && small(t`new.folder`, ' ', h('bdi', { dir: 'ltr' }, folder)), form],
    h('figure.bed-figure', drawn, caption));
}
