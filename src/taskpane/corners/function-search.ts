/** Finds a function by the words people ask with: "how long does a bag take to drain", "cuánta agua necesita un árbol". */
import { plainLabel } from '../../tables/cells.js';
import type { FunctionEntry } from './function-data.js';

/** Questions that are one word here, so that "how long" is not two words nobody means. */
const ASKED: readonly (readonly [RegExp, string])[] = [
  [/\b(how long|how many hours|cuanto tiempo|cuanto tarda|cuantas horas)\b/g, 'howlong'],
  [/\b(how many|cuant[oa]s)\b/g, 'howmany'],
  [/\b(how much|how big|cuant[oa]|que tan grande)\b/g, 'howmuch'],
  [/\b(how heavy|how much does .* weigh|cuanto pesa)\b/g, 'howheavy'],
  [/\b(how often|cada cuanto)\b/g, 'howoften'],
];
/** Words that tell nothing. */
const SMALL = new Set(
  'a an and are at be by can do does for from get has have i if in is it its long me my of on or our should take takes the to use we what which will with you your al como con cual cuales de del debo el en es esta hace la las lo los me mi para por puedo que se si su un una y'.split(
    ' ',
  ),
);

/**
 * Everyday words of a function that stand in neither name nor description, English and Spanish, the most asked first: where
 * two functions fit alike, the first of them is shown first. Common practice, no source.
 */
const EVERYDAY: readonly (readonly [id: string, words: string])[] = [
  ['BAG_HOURS', 'howlong bag drain drains empty holes time last bolsa vaciar vaciarse agujeros tarda howmuch'],
  ['TREE_DEMAND', 'howmuch water tree need needs drink daily cuanta agua arbol necesita'],
  ['NEXT_DATE', 'when water next again watering day cuando regar proximo riego otra vez'],
  ['INTERVAL', 'howoften water watering between days last cada cuanto regar dias'],
  ['BAG_OPEN_HOLES', 'howmany holes open clogged agujeros abiertos tapados'],
  ['BAG_VERDICT', 'bag faulty leak leaks clogged flush replace bad check bolsa mala pierde tapada revisar'],
  ['BAG_LEFT', 'howmuch left bag full still queda bolsa'],
  ['BAG_HOLE', 'hole size big holes tamano agujero'],
  ['WATER_WEIGHT', 'howheavy heavy weigh weighs weight full bag tank load pesa peso bolsa llena'],
  ['HOSE_MINUTES', 'howlong soaker hose run runs running time minutes water manguera exudante tiempo minutos'],
  ['HOSE_FLOW', 'soaker hose flow gives gallons minute caudal manguera'],
  ['BUCKET_FLOW', 'tap spigot hydrant bucket test flow rate measure grifo toma cubo caudal'],
  ['COIL_LENGTH', 'howmuch howlong soaker hose ring around coil spiral manguera espiral alrededor'],
  ['RULE_OF_THUMB', 'gallons inch trunk howmuch water rule galones pulgada tronco'],
  ['RULE_OPEN', 'allowed may ok legal water today now permitido regar hoy'],
  ['RULE_WHY', 'why not allowed forbidden rule permitido porque'],
  ['RULE_NEXT', 'when allowed start permitido cuando'],
  ['ROOT_MONTHS', 'howlong establish established years meses establecerse'],
  ['TANK_LOADS', 'howmany loads truck tank trips refills viajes camion tanque cargas'],
  ['STOP_MINUTES', 'howlong stop each tree crew minutes parada'],
  ['MULCH_VOLUME', 'howmuch mulch yards acolchado'],
  ['SOAK_CYCLES', 'runoff run off cycle soak slope clay split escurre ciclos'],
  ['PAD_DAYS', 'howlong pad last lasts days almohadilla dura'],
  ['PAD_CHARGED', 'howlong soak pad remojar almohadilla'],
  ['RECHARGE_DATE', 'when soak pad again cuando remojar almohadilla'],
  ['ROOTZONE_VOLUME', 'howmuch root ball holds water cepellon raices agua'],
  ['BALL_DIAMETER', 'howmuch root ball size big caliper cepellon tamano'],
  ['CONTAINER_VOLUME', 'pot container gallon size nursery envase maceta'],
  ['SOIL_INTAKE', 'soil infiltration fast soak in suelo infiltra'],
  ['RAIN_DAY', 'rain counts storm howmuch lluvia cuenta'],
  ['HEAT_REST', 'hot heat break crew work rest calor descanso cuadrilla'],
  ['SALINITY', 'salt salty reclaimed well water sal salada'],
  ['WATER_COST', 'cost bill water price howmuch costo agua'],
  ['PRICE', 'charge quote bid margin price cobrar precio'],
  ['WARRANTY_END', 'warranty over end when garantia termina'],
  ['HOSE_LONGEST', 'longest howlong soaker hose can be even manguera larga'],
  ['HOSE_LOSS', 'pressure drop loss hose pipe presion perdida'],
]; // prettier-ignore

/** What a word counts by where it stands. */
const POINTS = { name: 5, everyday: 5, description: 3, parameters: 1 };

const everyday = new Map(EVERYDAY);
const asked = new Map(EVERYDAY.map(([id], i) => [id, i]));

/** A question in plain words, with what is asked as one word; words that tell nothing are left out unless nothing is left. */
export function wordsOf(typed: string): string[] {
  let plain = plainLabel(typed);
  for (const [form, word] of ASKED) plain = plain.replace(form, word);
  const words = plain.split(' ').filter((word) => word !== '');
  const telling = words.filter((word) => !SMALL.has(word));
  return telling.length > 0 ? telling : words;
}

const stem = (word: string): string => {
  const bare = word.replace(/(?:ings?|es|s)$/, '');
  return bare.length >= 3 ? bare : word;
};
/** Words of two texts are alike when one begins with the stem of the other. */
const holds = (text: string, word: string): boolean =>
  text.split(' ').some((each) => each.startsWith(stem(word)) || (each.length > 3 && word.startsWith(stem(each)) && stem(each).length > 3)); // prettier-ignore

interface Texts {
  name: string;
  everyday: string;
  description: string;
  parameters: string;
}

const textsOf = ({ id, description, parameters }: FunctionEntry): Texts => ({
  name: plainLabel(id.replaceAll('_', ' ')),
  everyday: everyday.get(id) ?? '',
  description: plainLabel(description),
  parameters: plainLabel(
    parameters.map((p) => `${p.name.replaceAll('_', ' ')} ${p.description}`).join(' '),
  ),
});

function points(texts: Texts, word: string): number {
  const found = (Object.keys(POINTS) as (keyof Texts)[]).filter((part) => holds(texts[part], word));
  return Math.max(0, ...found.map((part) => POINTS[part]));
}

/**
 * Functions that hold every word, best first; where none does, those that hold most of them. All of them, in the order of the
 * list, for no words.
 */
export function found(list: readonly FunctionEntry[], typed: string): FunctionEntry[] {
  const words = wordsOf(typed);
  if (words.length === 0) return [...list];
  const scored = list.map((entry) => {
    const texts = textsOf(entry);
    const each = words.map((word) => points(texts, word));
    const named = texts.name.split(' ').every((part) => words.some((word) => stem(word) === stem(part))); // prettier-ignore
    return {
      entry,
      held: each.filter((p) => p > 0).length,
      score: each.reduce((sum, p) => sum + p, 0) + (named ? POINTS.name : 0),
    };
  });
  const most = Math.max(...scored.map(({ held }) => held));
  const rank = (id: string): number => asked.get(id) ?? EVERYDAY.length;
  return scored
    .filter(({ held }) => held > 0 && held === most)
    .sort((a, b) => b.score - a.score || rank(a.entry.id) - rank(b.entry.id))
    .map(({ entry }) => entry);
}
