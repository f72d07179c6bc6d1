/** Words on the drawing of a coil. Spanish is a translation from memory. */

export interface CoilWords {
  /** for numbers */
  locale: string;
  stem: string;
  ball: string;
  dripline: string;
  /** what stands after the size of a circle: "24 in across" */
  across: string;
  /** "hose, 2 of 40 ft, turns 12 in apart" */
  hose: (joined: number, length: string, spacing: string) => string;
  wetted: string;
  /** where hoses meet */
  joint: string;
  /** what the drawing shows, where the coil stays under the dripline */
  within: (joined: number, length: string, wet: string, all: string) => string;
  /** and where it reaches beyond it */
  beyond: (joined: number, length: string, wet: string, past: string) => string;
  /** how it is drawn, for people who do not see it */
  seen: (turns: string, from: string, to: string) => string;
  /** whose tree it is */
  tree: (id: string, trees: number) => string;
}

export const COIL_WORDS: Record<'en' | 'es', CoilWords> = {
  en: {
    locale: 'en-US',
    stem: 'stem',
    ball: 'ball edge',
    dripline: 'dripline',
    across: 'across',
    hose: (joined, length, spacing) =>
      `hose, ${joined === 1 ? '' : `${joined} of `}${length}, turns ${spacing} apart`,
    wetted: 'ground it wets',
    joint: 'one hose ends, the next begins',
    within: (joined, length, wet, all) =>
      `${joined === 1 ? `A ${length} hose wets` : `${joined} hoses of ${length} wet`} ${wet} of the ${all} under the dripline`,
    beyond: (joined, length, wet, past) =>
      `${joined === 1 ? `A ${length} hose wets` : `${joined} hoses of ${length} wet`} ${wet}, to ${past} beyond the dripline`,
    seen: (turns, from, to) =>
      `Seen from above, to scale: ${turns} turns, the coil from ${from} to ${to} across`,
    tree: (id, trees) =>
      trees === 1
        ? `Drawn for tree ${id}, the only one with this coil`
        : `Drawn for tree ${id}, the middle one of ${trees} trees by its dripline`,
  },
  es: {
    locale: 'es-US',
    stem: 'tronco',
    ball: 'borde del cepellón',
    dripline: 'borde de la copa',
    across: 'de ancho',
    hose: (joined, length, spacing) =>
      `manguera, ${joined === 1 ? '' : `${joined} de `}${length}, vueltas cada ${spacing}`,
    wetted: 'suelo que moja',
    joint: 'termina una manguera, empieza la siguiente',
    within: (joined, length, wet, all) =>
      `${joined === 1 ? `Una manguera de ${length} moja` : `${joined} mangueras de ${length} mojan`} ${wet} de los ${all} bajo la copa`,
    beyond: (joined, length, wet, past) =>
      `${joined === 1 ? `Una manguera de ${length} moja` : `${joined} mangueras de ${length} mojan`} ${wet}, hasta ${past} más allá de la copa`,
    seen: (turns, from, to) =>
      `Visto desde arriba, a escala: ${turns} vueltas, la espiral de ${from} a ${to} de ancho`,
    tree: (id, trees) =>
      trees === 1
        ? `Dibujado para el árbol ${id}, el único con esta espiral`
        : `Dibujado para el árbol ${id}, el del medio de ${trees} árboles por su copa`,
  },
};
