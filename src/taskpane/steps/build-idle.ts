/** What a person owns and the plan does not use, with the reason: bought bags that stay in the yard are asked about first. */
import { html, nothing } from 'lit';
import type { IdleDevice } from '../../engine/plan/idle-stock.js';
import { said } from '../parts/pieces.js';
import type { Session } from '../session.js';
import { buildWords } from '../words/build.js';

export function idleDevices(session: Session, idle: readonly IdleDevice[]) {
  if (idle.length === 0) return nothing;
  return html`<ul id="idle" class="quiet gap">
    ${idle.map((each) => html`<li>${oneDevice(session, each)}</li>`)}
  </ul>`;
}

function oneDevice(session: Session, { device, stock, stressed, dearer, refused }: IdleDevice) {
  const { formats: f } = session;
  const b = buildWords(session.language);
  const reasons = [
    ...(stressed.trees > 0
      ? [html`${b.idleStressed(f, stressed.trees, stressed.least, stressed.most)}`]
      : []),
    ...(dearer > 0 ? [html`${b.idleDearer(f, dearer)}`] : []),
    ...refused.map(({ trees, why }) => html`${b.idleRefused(f, trees)}${said(session, why)}`),
  ];
  return html`${b.idle(f, stock, device)}
  ${reasons.map((reason, i) => html`${i === 0 ? '' : '; '}${reason}`)}.`;
}
