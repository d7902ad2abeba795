// In: the sheets of the workshop. Out: the list of them, those that are still to be engraved first.
import { get, h, heading, link, list, named, p, said, section, spread, t } from './voice.js';

function standing({ written, waiting, engraved }) {
  if (!written) return t('sheets.planned');
  if (waiting) return engraved ? t('sheets.some', { engraved, waiting }) : t('sheets.left', { n: waiting });
  return engraved ? t('sheets.all', { n: engraved }) : t('sheets.nothing');
}
const line = (sheet) => h('li', link('sheet', sheet.name), h('span.by', named('kind', sheet.kind)), standing(sheet),
  sheet.stale && said(sheet.stale, 'p', 'reason'));
const part = (name, some) => section(t(`sheets.${name}`), some.length ? list('ruled', some.map(line)) : p(t(`sheets.${name}.none`)));

export async function sheetsPage() {
  const { sheets } = await get('sheets');
  const isDue = (sheet) => sheet.waiting || sheet.stale || !sheet.written;
  return [t('sheets.title'), spread('', [heading(t('sheets.title')), part('due', sheets.filter(isDue))],
    part('past', sheets.filter((sheet) => !isDue(sheet)).reverse()))];
}
