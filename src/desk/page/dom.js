// In: names, texts, pictures as SVG. Out: elements. Never: asks the desk; takes text for markup.
import { called, language, named, t, time } from './texts.js';

/// h('p.note', { id: 'here', onclick }, 'words', node, [nodes]): what is null, false or empty is left out.
export function h(tag, ...children) {
  const [name, ...classes] = tag.split('.'), node = document.createElement(name);
  if (classes.length) node.className = classes.join(' ');
  const properties = children[0]?.constructor === Object ? children.shift() : {};
  for (const [name, value] of Object.entries(properties)) {
    if (isNothing(value)) continue;
    if (name === 'value' || typeof value === 'function') node[name] = value;
    else node.setAttribute(name, value === true ? '' : value);
  }
  node.append(...present(children));
  return node;
}
export const fill = (node, ...children) => node.replaceChildren(...present(children));
export const byId = id => document.getElementById(id);
const isNothing = value => (value ?? false) === false;
const present = children => children.flat(4).filter(one => !isNothing(one) && one !== '');

export const p = (...children) => h('p', children);
export const row = (...children) => h('p.row', children);
export const small = (...children) => h('p.by', children);
export const unseen = text => h('span.unseen', text);
export const hint = text => h('p.hint', text);
export const section = (title, ...children) => h('section', h('h2', title), children);
export const list = (kind, items, draw = one => one) => h(`ul.${kind}`, items.map(one => draw(one)).map(item => (item.localName === 'li' ? item : h('li', item))));
export const listed = (title, kind, some = [], draw, none = null) =>
  (some.length > 0 || none) && section(title, some.length ? list(kind, some, draw) : p(none));
export const heading = (title, ...below) => h('header', h('h1', { tabindex: -1 }, title), below);
/// The book lies open: a page of two leaves, or of one.
export const leaves = (title, left, right, kind = '', head = heading(title)) =>
  [title, h(`div.spread.${kind}`, h('div.leaf.sight', head, left), h('div.leaf', right))];
export const leaf = (title, ...content) => [title, h('div.leaf.alone', heading(title), content)];

export function picture(svg, name) {
  const node = svg && new DOMParser().parseFromString(svg, 'image/svg+xml').documentElement;
  if (node?.localName !== 'svg') return h('p.no-picture', t`no_picture`);
  for (const stray of node.querySelectorAll('script, foreignObject, style')) stray.remove();
  const sides = ['width', 'height'].map(name => parseFloat(node.getAttribute(name)));
  if (!node.hasAttribute('viewBox')) node.setAttribute('viewBox', `0 0 ${sides.join(' ')}`);
  for (const name of ['width', 'height']) node.removeAttribute(name);
  const kept = [...node.querySelectorAll('.kept > title')].map(title => title.textContent);
  node.setAttribute('role', 'img');
  node.setAttribute('aria-label', [name, ...kept].join('; '));
  return node;
}
export const view = (svg, name) => h('div.view', picture(svg, name));
/// What cannot be drawn leaves the last picture, pale.
export function redraw(view, svg, name, isStale) {
  if (svg) fill(view, picture(svg, name));
  view.classList.toggle('stale', isStale);
}

/// The desk's own words are English whatever the page is.
export const said = (text, tag = 'span', kind = null) => h(tag, { lang: language !== 'en' && 'en', dir: 'auto', class: kind }, text);

const theirs = { dir: 'auto', lang: '' };
export const words = (text, tag = 'p') => h(`${tag}.words`, theirs, text);
export const wordsBox = properties => h('textarea', { ...theirs, ...properties });
export const oneLine = text => text.trim().replaceAll('\n', ' / ');
export const inLine = item => h('bdi.words', { lang: '' }, oneLine(item.words));

export const numeral = text => h('span.number', { dir: 'ltr' }, text);
export const address = (page, name) => `#/${page}/${encodeURIComponent(name)}`;
export const link = (page, name, text = name) => h('a.number', { href: address(page, name), dir: 'ltr' }, text);
export const itemLink = item => link('item', item.number, called(item));
export const factsLine = (...facts) => h('p.facts', facts.map(one => one && h('span', one)));
export const stateMark = (state, kind = 'state') => h('span.state', { 'data-state': state }, named(kind, state));
export const itemRow = item => [itemLink(item), inLine(item), stateMark(item.state)];

export const mendLine = mend => mend && p(h('b', t`mend`, ' '), said(mend));
export const faultBox = fault => fault && h('div.fault', said(fault.what, 'p', 'fault-what'),
  (fault.where || fault.why) && p(fault.where && said(fault.where), fault.where && fault.why && ' – ', fault.why && said(fault.why)),
  mendLine(fault.mend));
export const reasonLine = text => text && said(text, 'p', 'reason');

const heldLine = ({ id, shown, fault }) =>
  [p(/^(?!row-).*-\d+$/.test(id) ? link('item', id, shown || id) : h('b', { dir: 'auto' }, shown || id)), faultBox(fault)];
export const lines = (some, kind = 'plain') => some?.length > 0 && list(kind, some, line => said(line));
export const folded = (title, ...content) => h('details', h('summary', title), content);

export function accountBox(account, level = 3) {
  if (!account) return null;
  const { told = [], held = [], warnings = [], notes = [], files = [] } = account;
  const title = text => h(`h${level}`, text);
  return h('div.account',
    lines(told, 'told'),
    held.length > 0 && [title(t('account.held', { n: held.length })), list('plain', held, heldLine)],
    warnings.length > 0 && [title(t`account.warnings`), lines(warnings)],
    notes.length > 0 && folded(t`account.notes`, lines(notes)),
    files.length > 0 && folded(t('account.files', { n: files.length }), lines(files)));
}

export function field(id, label, input, note = '', around = input) {
  input.id = id;
  if (note) input.setAttribute('aria-describedby', `${id}-hint`);
  return h('p.field', h('label', { for: id }, label), around, note && h('small', { id: `${id}-hint` }, note));
}
export const input = (type, properties = {}) => h('input', { type, ...properties });
export const sentence = (properties = {}) => input('text', { dir: 'auto', maxlength: 300, ...properties });
/// Why something is done: t`….reason`, t`….example`.
export const reasonField = (id, texts) => field(id, t(`${texts}.reason`), sentence({ name: 'reason', required: true, placeholder: t(`${texts}.example`) }));
export const length = properties => input('number', { step: 'any', inputmode: 'decimal', ...properties });
export const choice = (properties, ...label) => h('label.choice', h('input', properties), label);
/// Each choice is [value, name], or a word that is both.
export const select = (chosen, choices) => h('select', choices.map(one => [one].flat()).map(([value, name = value]) => h('option', { value, selected: value === chosen }, name)));

export const mapped = (object, make) => Object.fromEntries(Object.entries(object).map(([name, value]) => [name, make(value)]));

export const storyList = story => section(t`item.story`, h('ol.story', story.map(({ at, text, cause }) =>
  h('li', h('time', time(at)), ' ', said(text), cause && said(cause, 'span', 'cause')))));
