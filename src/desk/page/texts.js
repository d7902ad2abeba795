// In: a language. Out: the page's words, numbers and times in it. All words stand in texts.*.json.
const languages = { en: 'ltr', he: 'rtl' };
const texts = {};
export let language = 'en';

/// { "today": { "title": "Today" } } → today.title. What a language lacks stays English.
async function read(name) {
  for (const [group, some] of Object.entries(await (await fetch(`/texts.${name}.json`)).json())) {
    if (typeof some === 'string') texts[group] = some;
    else for (const [key, text] of Object.entries(some)) texts[key ? `${group}.${key}` : group] = text;
  }
}

export async function loadTexts() {
  try {
    const chosen = localStorage.getItem('desk-language');
    if (chosen in languages) language = chosen;
  } catch { /* a browser that keeps nothing has English */ }
  await read('en');
  if (language !== 'en') await read(language);
  document.documentElement.lang = language;
  document.documentElement.dir = languages[language];
  for (const node of document.querySelectorAll('[data-t], [data-t-label], [data-t-hint]')) {
    const { t: text, tLabel, tHint } = node.dataset;
    if (text) node.textContent = t(text);
    if (tLabel) node.setAttribute('aria-label', t(tLabel));
    if (tHint) node.placeholder = t(tHint);
  }
}

export function changeLanguage() {
  try {
    localStorage.setItem('desk-language', language === 'en' ? 'he' : 'en');
  } catch { /* then it lasts as long as the page */ }
  location.reload();
}

/// A value within a sentence that may run the other way stays whole.
const apart = value => (languages[language] === 'rtl' ? `\u2068${value}\u2069` : String(value));

/// An item by its number, a number as the language writes it.
export const called = value => (typeof value === 'number' ? number(value) : value.shown || value.number || value);

/// t`name`, or t('name', { n }): the text of that name, filled in.
export function t(name, values = {}) {
  return (texts[name] ?? String(name)).replace(/\{(\w+)\}/g, (_, key) => apart(called(values[key] ?? '')));
}
/// A word that the desk sends; without a translation as it came.
export const named = (kind, word) => texts[`${kind}.${word}`] ?? word;

export const number = (value, digits = 2) =>
  new Intl.NumberFormat(language, { maximumFractionDigits: digits }).format(value);
export const mm = (value, digits = 1) => t('mm', { value: number(value, digits) });
export const size = ({ width, height }) => t('size', { width: number(width, 1), height: number(height, 1) });

const dated = (date, style) => new Intl.DateTimeFormat(language, style).format(new Date(date));
export const shortDate = date => dated(`${date}T00:00Z`, { dateStyle: 'medium', timeZone: 'UTC' });
export const longDate = date => dated(`${date}T00:00Z`, { dateStyle: 'full', timeZone: 'UTC' });

export const time = at => (/^[\d-]{10}T[\d:]+Z$/.test(at) ? dated(at, { dateStyle: 'medium', timeStyle: 'short' }) : at);
