// In: an export of the shop, dropped or chosen. Out: first what would be taken in, and nothing is changed; then it is taken in.
import { sendFile } from './ask.js';
import { accountBox, faultBox, h, input, present, row, small } from './dom.js';
import { t } from './texts.js';
import { busy, desk, done, faultOf, press, say, spokenFault } from './voice.js';

const empty = { file: null, account: null, fault: null, isTaken: false };
let kept = empty;  // stays when the page is read again
let place = null;

async function lookAt(file) {
  kept = { ...empty, file };
  try {
    kept.account = (await sendFile('look', file, false)).account;
  } catch (error) {
    kept.fault = faultOf(error);
  }
  fill();
  document.getElementById('intake-result')?.focus();
  say(kept.fault ? kept.fault.what : t('intake.looked', { file: file.name }));
}

async function takeIn() {
  const { file } = kept;
  try {
    kept = { ...empty, account: (await sendFile('intake', file, true)).account, isTaken: true };
  } catch (error) {
    kept.fault = faultOf(error);
    fill();
  }
  if (kept.isTaken) await desk.again();
  document.getElementById('intake-result')?.focus();
  if (kept.isTaken) done(t('intake.taken', { file: file.name }));
  else say(spokenFault(kept.fault));
}

function forget() {
  kept = empty;
  fill();
  document.getElementById('export').focus();
}

function result() {
  const { file, account, fault, isTaken } = kept;
  if (!account && !fault) return null;
  return h('div', { class: 'slip' },
    h('h3', { id: 'intake-result', tabindex: '-1' }, t(!account ? 'intake.failed' : isTaken ? 'intake.was_taken' : 'intake.would')),
    file && small(h('bdi', {}, file.name)), fault && faultBox(fault), accountBox(account, 4),
    row(account && !isTaken && press(t('intake.take'), takeIn, { doing: t('intake.taking'), class: 'main-act', id: 'take-in' }),
      press(t(account && !isTaken ? 'intake.leave' : 'act.close'), forget)));
}

function fill() {
  const choose = input('file', { id: 'export', accept: '.csv,.tsv,.txt,text/csv,text/plain', 'aria-describedby': 'export-hint' });
  const slot = h('div', { class: 'slot' }, h('label', { for: 'export' }, t('intake.choose')), choose, h('small', { id: 'export-hint' }, t('intake.hint')));
  const go = (file) => file && busy(choose, t('intake.looking'), () => lookAt(file));
  const over = (isOver) => (event) => {
    event.preventDefault();
    slot.classList.toggle('over', isOver);
  };
  choose.addEventListener('change', () => go(choose.files[0]));
  slot.addEventListener('dragover', over(true));
  slot.addEventListener('dragleave', over(false));
  slot.addEventListener('drop', (event) => {
    over(false)(event);
    go(event.dataTransfer.files[0]);
  });
  place.replaceChildren(...present([h('h2', {}, t('intake.title')), slot, result()]));
}

export function intake() {
  place = h('section', {});
  fill();
  return place;
}
