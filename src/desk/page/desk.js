// In: the address behind "#". Out: its page, with the focus on its heading.
import './ahead.js';
import './bench.js';
import { newPage } from './form.js';
import './photo.js';
import './sheet.js';
import './today.js';
import { address, byId, changeLanguage, desk, faultBox, faultOf, fill, get, h, hush, language, leaf, link, list, loadTexts, p, pages, post, press, resumeWatching, row, say, t } from './voice.js';

/// In the head of the page, each with the pages that belong there.
const chapters = { today: 'item columns', proofs: '', sheets: 'sheet', pieces: 'photo measure', stock: 'board panes faces', time: 'plan', designs: 'design', settings: '' };
const main = byId('main');
let turns = 0, shopRead = 0, shownAddress = null;
const shopLasts = 600_000;  // ms: the day may have changed

function route() {
  const [, page = '', ...rest] = location.hash.split('/');
  let name = '';
  try {
    name = decodeURIComponent(rest.join('/'));
  } catch { /* an address that was cut off names nothing */ }
  return page in pages ? { page, name } : { page: 'today', name: '' };
}

/// The focus stays when the page is read anew; else it goes to the nearest heading.
function placeOfFocus() {
  const { scrollY } = window, names = [], isWithin = main.contains(document.activeElement);
  for (let node = document.activeElement; isWithin && node !== main; node = node.parentElement) if (node.id) names.push(node.id);
  return () => {
    window.scrollTo(0, scrollY);
    if (!isWithin) return;
    const left = names.map(name => byId(name)).find(node => node && !node.hidden) ?? main;
    const pressed = 'button, input, select, textarea';
    const found = left !== main && left.matches(`${pressed}, [tabindex]`) ? left : left.closest('section, .need')?.querySelector('h2, h3, h4') ?? main.querySelector('h1') ?? main;
    if (!found.matches(pressed)) found.tabIndex = -1;
    found.focus({ preventScroll: true });
  };
}

function put([title, body]) {
  fill(main, body);
  document.title = `${title} – ${desk.shop.name || 'Ordinatio'}`;
}
const withoutLedger = 'board design designs faces measure panes pieces plan settings'.split(' ');
const begin = () => post('begin-ledger', {}).then(start);
const noLedger = () => leaf(t`ledger.none`, p(t`ledger.about`), row(press(t`ledger.begin`, begin, 'main-act', 'begin-ledger')));
const failed = error => leaf(t`page.failed`, faultBox(faultOf(error)), row(press(t`page.again`, start), h('a', { href: '#/settings' }, t`settings.title`)));

async function read(page, name) {
  try {
    if (desk.shop.is_new) return newPage({ folder: desk.shop.folder, started: start });
    if (page !== 'settings' && Date.now() - shopRead > shopLasts) await readShop();
    if (!desk.shop.ledger && !withoutLedger.includes(page)) return noLedger();
    return await pages[page]({ name });
  } catch (error) {
    if (!error.fault) console.error(error);
    return failed(error);
  }
}

async function show(restore = null) {
  const turn = ++turns, { page, name } = route(), chapter = Object.keys(chapters).find(one => one === page || chapters[one].includes(page));
  for (const link of document.querySelectorAll('#nav a')) link.ariaCurrent = link.hash === `#/${chapter}` ? 'page' : null;
  const late = setTimeout(() => {
    main.prepend(h('p.reading', t`page.reading`));
    say(t`page.reading`);
  }, 1000);
  const made = await read(page, name);
  clearTimeout(late);
  if (turn !== turns) return;  // another page was asked for meanwhile
  put(made);
  if (restore) restore();
  else if (shownAddress !== null) {
    window.scrollTo(0, 0);
    main.querySelector('h1')?.focus({ preventScroll: true });
  }
  shownAddress = location.hash;
}

async function readShop() {
  desk.shop = await get('shop');
  shopRead = Date.now();
  desk.shop.date ||= new Intl.DateTimeFormat('sv').format();  // YYYY-MM-DD
  desk.shop.designs ??= [];
}

async function start() {
  try {
    await readShop();
  } catch (error) {
    return put(failed(error));
  }
  const { name, is_new } = desk.shop;
  byId('shop-name').textContent = name || 'Ordinatio';
  for (const part of ['nav', 'find']) byId(part).hidden = is_new;
  byId('foot-shop').textContent = t('foot', desk.shop);
  await show();
  if (!is_new) resumeWatching().catch(() => {});
}

function prepare() {
  byId('nav').append(list('nav', Object.keys(chapters), name => h('a', { href: `#/${name}` }, t(`${name}.title`))));
  const other = byId('language');
  other.onclick = changeLanguage;
  if (language !== 'en') {
    Object.assign(other, { textContent: 'English', lang: 'en', dir: 'ltr' });
    byId('foot-draft').textContent = t`draft`;
  }
  byId('skip').onclick = event => {
    event.preventDefault();
    (main.querySelector('h1') ?? main).focus();
  };
  byId('find').onsubmit = event => {
    event.preventDefault();
    location.hash = address('search', byId('find-words').value.trim());
  };
  window.onhashchange = () => {
    hush();
    document.querySelector('#work details')?.removeAttribute('open');
    show();
  };
  // A file that is dropped beside the slot is not opened.
  for (const name of ['dragover', 'drop']) window.addEventListener(name, event => event.preventDefault());
  desk.again = () => show(placeOfFocus());
}

await loadTexts();
prepare();
await start();
