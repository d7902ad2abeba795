// In: shop.toml, a design's file, a piece's row. Out: its fields beside what they make, drawn by the desk at each change.
import { measures } from './setter.js';
import { change, desk, done, faultBox, field, folded, get, giver, h, heading, inTurn, lines, named, onGiven, p, picture, post, present, press, row, say, section, select, sentence, size, spokenFault, spread, t } from './voice.js';

const open = new Map();  // pages with what is not saved

function fieldOf({ name, table, label, kind, usual, value, choices }) {
  const now = value || usual;
  const box = choices.length ? select(now, [...new Set([...choices, now])].map((one) => [one, named(kind, one)])) :
    h(kind === 'textarea' ? kind : 'input', { type: kind, value, placeholder: usual, dir: 'auto', step: 'any', checked: now === 'true' });
  return { name, table, box, node: field(`field-${name}`, named('field', label), box, named('hint', label).replace(label, '')), now: () => (kind === 'checkbox' ? `${box.checked}` : box.value) };
}

function copyForm(name) {
  const to = sentence({ required: true });
  return onGiven(h('form.inline', field('copy-name', t`design.copy.name`, to), giver(t`design.copy`)), async () => {
    await change('copy-design', { from: name, name: to.value }, t('design.copied', { name: to.value }));
    location.hash = `#/design/${encodeURIComponent(to.value)}`;
  });
}

export const formPage = (kind) => async ({ name }) => {
  const key = kind + name, title = t(`${kind}.${name ? 'one' : 'title'}`, { name });
  if (open.has(key)) return open.get(key);
  const file = await get(kind, { name });
  const fields = file.fields.map(fieldOf);
  const view = h('div.view'), caption = h('figcaption'), wrong = h('div');
  const source = h('textarea.source', { rows: 18, dir: 'ltr', value: file.text, 'aria-label': file.file });
  const words = h('textarea', { dir: 'auto', lang: '', value: file.words });
  let isOwn = false, telling = 0;
  const ask = () => ({ name, digest: file.digest, words: words.value, ...(isOwn ? { text: source.value } : { names: fields.map((one) => one.name), values: fields.map((one) => one.now()) }) });
  const attempt = inTurn(`try-${kind}`, (answer) => {
    const { fault, at, text, unused = [], remark, pockets, set = answer } = answer;
    if (set.picture) view.replaceChildren(picture(set.picture, title));
    view.classList.toggle('stale', !!fault);
    const bad = remark ?? set.fault;
    if (!fault) caption.replaceChildren(...present([set.lines ? [measures(set), lines(set.warnings)] : p(size(set.width, set.height), pockets && t('form.pieces', { n: pockets })), bad && faultBox(bad)]));
    if (text && !isOwn) source.value = text;
    wrong.replaceChildren(...present([fault && faultBox(fault)]));
    caption.after(wrong);
    for (const { name, node, box } of fields) {
      node.hidden = unused.includes(name);
      box.ariaInvalid = !!fault && name === at;
      if (name === at) node.append(wrong);
    }
    clearTimeout(telling);
    telling = setTimeout(() => acts.hidden || say(fault ? spokenFault(fault) : caption.textContent), 600);
  });
  const leave = () => open.delete(key) && desk.again();
  const acts = row(h('button.main-act', { form: 'fields', id: 'save-form' }, t(`${kind}.save`, file)), press(t`form.back`, leave));
  acts.hidden = true;
  const parts = h('fieldset', [...Map.groupBy(fields, (one) => one.table)].map(([table, some]) => section(table.replace(/\w+/, (one) => named('form', one)), h('div.pair', some.map((one) => one.node)))));
  const form = onGiven(h('form.own', { id: 'fields' }, parts, file.text && folded(t('form.source', file), source)), async () => {
    const answer = await post(`save-${kind}`, ask());
    await leave();
    done(t(`${kind}.saved`, file), answer);
  });
  const body = spread('item', [heading(title), h('figure.plaque-figure.own', view, caption, acts), file.words && field('form-words', t`form.words`, words)], [form, kind === 'design' && copyForm(name)]);
  body.addEventListener('input', ({ target }) => {
    parts.disabled = isOwn ||= target === source;
    acts.hidden &&= !form.contains(target);
    if (!acts.hidden) open.set(key, [title, body]);
    attempt(ask());
  });
  attempt(ask());
  return [title, body];
};
