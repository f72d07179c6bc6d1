/** The field card in every language the crew reads. Spanish from memory, as the rest of the crew's words. */
import { FIELD_CARD, FIELD_CARD_SOURCE, PROBES } from '../engine/contract/field-card.js';
import { MM_PER_INCH, type Units } from '../engine/units.js';
import type { Language, Words } from './crew-words.js';

const words = (en: string, es: string): Words => ({ en, es });

const CARD_WORDS = {
  title: words('Field card', 'Tarjeta de campo'),
  back: words('For the back of the sheet', 'Para el reverso de la hoja'),
  leaves: words('Leaves', 'Hojas'),
  soil: words('Soil', 'Tierra'),
  act: words('What to do', 'Qué hacer'),
  probe: words('Probe', 'Sonda'),
  depth: words('To reach', 'Debe llegar a'),
  after: words('After:', 'Según:'),
} as const satisfies Record<string, Words>;
export type CardWord = keyof typeof CARD_WORDS;

/** What the engine's card says, word for word, in Spanish. */
const SPANISH: Readonly<Record<string, string>> = {
  'slightly drooping, hazy green': 'algo caídas, verde apagado',
  'drooping, wrinkled': 'caídas, arrugadas',
  'brown, falling': 'marrones, cayendo',
  'brown margins, not drooping': 'bordes marrones, sin caerse',
  dry: 'seca',
  cracked: 'agrietada',
  wet: 'mojada',
  'water soon': 'riegue pronto',
  'water now': 'riegue ya',
  stop: 'no riegue más',
  'a screwdriver, before': 'un destornillador, antes de regar',
  'a rod, after': 'una varilla, después de regar',
  'water if it stops short': 'riegue si no llega',
  'it should reach this deep': 'debe llegar a esta profundidad',
};

/** The card in one language. */
export class FieldCard {
  constructor(
    private readonly language: Language,
    private readonly units: Units,
  ) {}

  word = (key: CardWord): string => CARD_WORDS[key][this.language];

  private say(english: string): string {
    if (this.language === 'en') return english;
    const said = SPANISH[english];
    if (said === undefined) throw new RangeError(`the field card has no Spanish for "${english}"`);
    return said;
  }

  /** Leaves, soil, what to do. */
  rows = (): [leaves: string, soil: string, act: string][] =>
    FIELD_CARD.map(({ leaves, soil, act }) => [this.say(leaves), this.say(soil), this.say(act)]);

  /** Probe, depth, what to do. */
  probes = (): [probe: string, depth: string, act: string][] =>
    PROBES.map(({ what, mm, act }) => {
      const depth = this.units === 'US' ? `${Math.round(mm / MM_PER_INCH)} in` : `${Math.round(mm / 10)} cm`; // prettier-ignore
      return [this.say(what), depth, this.say(act)];
    });

  /** Who published the rows, in short; where to find them stands on Sources. */
  publishers = (): string =>
    `${this.word('after')} ${[FIELD_CARD_SOURCE, ...PROBES].map(({ publisher }) => publisher).join(', ')}`;
}
