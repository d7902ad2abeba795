// In: an export, dropped or chosen. Out: first what would be taken in, then it is taken in.
import { openColumns } from './columns.js';
import { accountBox, busy, byId, desk, done, faultBox, faultOf, h, present, press, row, say, sendFile, slot, small, spokenFault, t } from './voice.js';

let kept = {};  // file, account, fault, isTaken: stays when the page is read again
let place = null, isNew = false;

async function lookAt(file) {
  kept = { file };
  try {
    kept.account = (await sendFile('look', file, false)).account;
  } catch (error) {
    kept.fault = faultOf(error);
  }
  fill();
  byId('intake-result')?.focus();
  say(kept.fault ? kept.fault.what : t('intake.looked', { file: file.name }));
}

/// A new workshop says first what the columns are; so does one whose columns an export has not.
async function lookOrAsk(file) {
  if (isNew) return openColumns(file);
  await lookAt(file);
  if (/\bcolumns?\b/.test(kept.fault?.what)) openColumns(file, kept.fault);
}

/// Goes on from the columns to what would be taken in.
export async function lookFor(file, { account }) {
  history.pushState(null, '', '#/today');
  await desk.again();
  await lookAt(file);
  kept.account?.told.unshift(...account.told);
  fill();
  byId('intake-result')?.focus();
}

async function takeIn() {
  const { file } = kept;
  try {
    kept = { account: (await sendFile('intake', file, true)).account, isTaken: true };
  } catch (error) {
    kept.fault = faultOf(error);
    fill();
  }
  if (kept.isTaken) await desk.again();
  byId('intake-result')?.focus();
  if (kept.isTaken) done(t('intake.taken', { file: file.name }));
  else say(spokenFault(kept.fault));
}

function forget() {
  kept = {};
  fill();
  byId('export').focus();
}

function result() {
  const { file, account, fault, isTaken } = kept;
  if (!account && !fault) return null;
  return h('div.slip',
    h('h3', { id: 'intake-result', tabindex: -1 }, t(!account ? 'intake.failed' : isTaken ? 'intake.was_taken' : 'intake.would')),
    file && small(h('bdi', file.name)), faultBox(fault), accountBox(account, 4),
    row(account && !isTaken && press(t`intake.take`, takeIn, 'main-act', 'take-in', t`intake.taking`),
      press(t(account && !isTaken ? 'intake.leave' : 'act.close'), forget)));
}

function fill() {
  place.replaceChildren(...present([h('h2', t`intake.title`),
    slot('export', (file, from) => busy(from, t`intake.looking`, () => lookOrAsk(file))),
    row(press(t`columns.tell`, () => openColumns(kept.file), 'small', 'tell-columns')), result()]));
}

export function intake(hasNoItems) {
  isNew = hasNoItems;
  place = h('section');
  fill();
  return place;
}
