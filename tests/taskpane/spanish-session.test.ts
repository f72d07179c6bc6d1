/** The session gives what the planner says in its own language. Common practice, no source. */
import { describe, expect, it } from 'vitest';
import { Session } from '../../src/taskpane/session.js';
import { memoryHost, TREES } from './panel-host.js';
import { freshRoom } from './said/room.js';

const NO_SIZE = /^no trunk diameter, container, ball or canopy on this row/;
const SPANISH = /^en esta fila no hay diámetro del tronco, envase, cepellón ni copa/;

async function started(language: 'en' | 'es', kept: Record<string, string> = {}): Promise<Session> {
  const host = memoryHost({ Trees: TREES });
  for (const [key, value] of Object.entries(kept)) host.settings.set(key, value);
  const session = new Session(host, freshRoom(), language);
  await session.start();
  return session;
}
const reason = (session: Session): string => session.reading!.look[0]!.reasons[0]!.sentence;

describe('what the planner says', () => {
  it('stays English and is marked so while the panel speaks English', async () => {
    const session = await started('en');
    expect(reason(session)).toMatch(NO_SIZE);
    expect(session.spoken(reason(session))).toEqual({ text: reason(session), lang: 'en' });
  });

  it.each([
    ['begun in Spanish', () => started('es')],
    ['kept in the workbook', () => started('en', { language: 'es' })],
    ['chosen later', async () => {
      const session = await started('en');
      await session.speak('es');
      return session;
    }],
  ])('is Spanish without a mark: %s', async (_, start) => {
    const session = await start();
    const { text, lang } = session.spoken(reason(session));
    expect(text).toMatch(SPANISH);
    expect(lang).toBe(undefined);
  }); // prettier-ignore

  it('stays English and is marked so where there is no translation of a whole sentence', async () => {
    const session = await started('es');
    const unknown = `${reason(session)} Nobody has said this before.`;
    expect(session.spoken(unknown)).toEqual({ text: unknown, lang: 'en' });
  });

  it('is English again when the panel is', async () => {
    const session = await started('es');
    await session.speak('en');
    expect(session.spoken(reason(session)).lang).toBe('en');
  });

  it('is told in Spanish too where something cannot be done', async () => {
    const session = await started('es');
    await session.attempt(async () => void (await session.room.whatIf()));
    expect(session.told.english).toBe(true);
    expect(session.spoken(session.told.sentence)).toEqual({
      text: 'Todavía no hay plan: planifique primero la temporada',
    });
  });
});
