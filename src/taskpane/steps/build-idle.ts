/** What a person owns and the plan does not use, with the reason: bought bags that stay in the yard are asked about first. */
import { html, nothing, type TemplateResult } from 'lit';
import type { IdleDevice } from '../../engine/plan/idle-stock.js';
import { hourText } from '../../tables/hours.js';
import { said } from '../parts/pieces.js';
import type { Session } from '../session.js';
import { buildWords } from '../words/build.js';

export function idleDevices(session: Session, idle: readonly IdleDevice[]) {
  if (idle.length === 0) return nothing;
  return html`<ul id="idle" class="quiet gap">
    ${idle.map((each) => html`<li>${oneDevice(session, each)}</li>`)}
  </ul>`;
}

const MINUTES = 60;

/** Why no day is open with it: what it takes against what there is. */
function closedSaid(session: Session, { trees, why }: IdleDevice['closed'][number]): string {
  const { formats: f } = session;
  const { idleClosed } = buildWords(session.language);
  if (why.kind !== 'drain') return idleClosed[why.kind](f, trees);
  const { start, end } = why.span;
  const [from, to] = [hourText(start / MINUTES), hourText(end / MINUTES)];
  const takes = why.minutes === undefined ? undefined : why.minutes / MINUTES;
  return idleClosed.drain(f, trees, takes, (end - start) / MINUTES, from, to);
}

function oneDevice(
  session: Session,
  { device, stock, closed, stressed, dearer, refused }: IdleDevice,
) {
  const { formats: f } = session;
  const b = buildWords(session.language);
  const reasons: TemplateResult[] = [
    ...closed.map((each) => html`${closedSaid(session, each)}`),
    ...(stressed.trees > 0
      ? [html`${b.idleStressed(f, stressed.trees, stressed.least, stressed.most)}`]
      : []),
    ...(dearer > 0 ? [html`${b.idleDearer(f, dearer)}`] : []),
    ...refused.map(({ trees, why }) => html`${b.idleRefused(f, trees)}${said(session, why)}`),
  ];
  return html`${b.idle(f, stock, device)}
  ${reasons.map((reason, i) => html`${i === 0 ? '' : '; '}${reason}`)}.`;
}
