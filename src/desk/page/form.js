// In: shop.toml, a design's file, a piece's row. Out: its fields beside what they make, drawn by the desk at each change.
import { measures } from './setter.js';
import { afterRest, change, desk, done, faultBox, field, folded, get, given, giver, h, inTurn, leaves, lines, named, p, pages, post, present, press, redraw, row, say, section, select, sentence, size, spokenFault, t, wordsBox } from './voice.js';

const open = new Map();  // pages with what is not saved

function fieldOf({ name, table, label, kind, usual, value, choices }) {
  const now = value || usual;
  const box = choices.length ? select(now, [...new Set([...choices, now])].map((one) => [one, named(kind, one)])) :
    h(kind === 'textarea' ? kind : 'input', { type: kind, value, placeholder: usual, dir: 'auto', step: 'any', checked: now === 'true' });
  return { name, table, box, node: field(`field-${name}`, named('field', label), box, named('hint', label).replace(label, '')), now: () => (kind === 'checkbox' ? `${box.checked}` : box.value) };
}

function copyForm(name) {
  const to = sentence({ required: true });
  const copy = async () => {
    await change('copy-design', { from: name, name: to.value }, t('design.copied', { name: to.value }));
    location.hash = `#/design/${encodeURIComponent(to.value)}`;
  };
  return h('form.inline', given(copy), field('copy-name', t`design.copy.name`, to), giver(t`design.copy`));
}

for (const kind of ['design', 'settings', 'measure']) pages[kind] = async ({ name }) => {
  const key = kind + name, title = t(`${kind}.${name ? 'one' : 'title'}`, { name });
  if (open.has(key)) return open.get(key);
  const file = await get(kind, { name });
  const fields = file.fields.map(fieldOf);
  const view = h('div.view'), caption = h('figcaption'), wrong = h('div');
  const source = h('textarea.source', { rows: 18, dir: 'ltr', value: file.text, 'aria-label': file.file });
  const words = wordsBox({ value: file.words });
  let isOwn = false;
  const tell = afterRest(600, (text) => acts.hidden || say(text));
  const ask = () => ({ name, digest: file.digest, words: words.value, ...(isOwn ? { text: source.value } : { names: fields.map((one) => one.name), values: fields.map((one) => one.now()) }) });
  const attempt = inTurn(`try-${kind}`, (answer) => {
    const { fault, at, text, unused = [], remark, pockets, set = answer } = answer;
    redraw(view, set.picture, title, !!fault);
    const bad = remark ?? set.fault;
    if (!fault) caption.replaceChildren(...present([set.lines ? [measures(set), lines(set.warnings)] : p(size(set.width, set.height), pockets && t('form.pieces', { n: pockets })), faultBox(bad)]));
    if (text && !isOwn) source.value = text;
    wrong.replaceChildren(...present([faultBox(fault)]));
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
  const parts = h('fieldset', [...Map.groupBy(fields, (one) => one.table)].map(([table, some]) => section(table.replace(/\w+/, (one) => named('form', one)), h('div.pair', some.map((one) => one.node)))));
  const save = async () => {
    const answer = await post(`save-${kind}`, ask());
    await leave();
    done(t(`${kind}.saved`, file), answer);
  };
  const form = h('form.own', { id: 'fields', ...given(save) }, parts, file.text && folded(t('form.source', file), source));
  const [, body] = leaves(title, 'item', [h('figure.plaque-figure.own', view, caption, acts), file.words && field('form-words', t`form.words`, words)], [form, kind === 'design' && copyForm(name)]);
  body.addEventListener('input', ({ target }) => {
    parts.disabled = isOwn ||= target === source;
    acts.hidden &&= !form.contains(target);
    if (!acts.hidden) open.set(key, [title, body]);
    attempt(ask());
  });
  attempt(ask());
  return [title, body];
};
