/** Who is served when water is short, in Spanish: orders and reasons. Unreviewed wording. */
import type { Theme } from './match.js';

export const shortage: Theme = {
  budget: [
    ['water in the week of {d:day}', 'agua en la semana del {d}'],
    ['crew minutes in the week of {d:day}', 'minutos de cuadrilla en la semana del {d}'],
    ['water of the season', 'agua de la temporada'],
  ],
  lacks: [['planting date', 'la fecha de plantación'], ['trunk size', 'el tamaño del tronco'], ['value', 'el valor'], ['stress days', 'los días de estrés'], ['condition', 'el estado']],
  order: [
    ['"new first"', '«primero los recién plantados»'], ['"large first"', '«primero los grandes establecidos»'], ['"sound first"', '«primero los sanos»'],
    ['"value"', '«el mayor valor»'], ['"stress"', '«primero los de más días de estrés»'], ['"score"', '«una suma de puntos»'],
  ],
  say: [
    ['trees planted in the last three years and trees visibly under stress first, then the rest; most trees of each', 'primero los árboles plantados en los últimos tres años y los que muestran estrés, luego el resto; de cada grupo los más posibles'],
    ['large established trees first, then those planted in the last three years, then the rest; of each those that cost most to replace, where a value is given', 'primero los árboles grandes establecidos, luego los plantados en los últimos tres años, luego el resto; de cada grupo los que más cuesta reponer, si se da un valor'],
    ['trees in good health first; an old tree in poor health may be given up; most trees of each', 'primero los árboles con buena salud; se puede renunciar a un árbol viejo con mala salud; de cada grupo los más posibles'],
    ['the greatest sum of value, such as shade, fruit, screening or the cost of replacing', 'la mayor suma de valor, como sombra, fruta, pantalla o el costo de reponer'],
    ['trees that have had most days under stress first: the greatest sum of such days', 'primero los árboles que han tenido más días de estrés: la mayor suma de esos días'],
    ['the greatest sum of points: 40 for planted in the last three years, 30 for large and established, 3 for each day under stress up to 30, 1 for being there and not in poor health', 'la mayor suma de puntos: 40 por plantado en los últimos tres años, 30 por grande y establecido, 3 por cada día de estrés hasta 30, 1 por estar y no tener mala salud'],
    ['an order of the office', 'un orden de la oficina'],
    ['points of this model, to be replaced by a value of your own', 'puntos de este modelo, a reemplazar por un valor propio'],
    ['it takes more than all there is: {b:budget}', 'necesita más que todo lo que hay: {b}'],
    ['not enough is left: {b:budget}', 'no queda bastante: {b}'],
    ['it would take the place of others that count for more', 'tomaría el lugar de otros que cuentan más'],
    ['row {n:num} ({id}): {why:rowLacks}', 'fila {n} ({id}): {why}'],
    ['the amount there is must be above 0; got {v}', 'la cantidad que hay debe ser mayor que 0; se dio {v}'],
  ],
  rowLacks: [
    ['the order {o:order} goes by {what:lacks}, which is blank', 'el orden {o} va por {what}, que está en blanco'],
    ['the order {o:order} needs a value above 0', 'el orden {o} necesita un valor mayor que 0'],
    ['the value is {c:cell}; accepted is a number of 0 or more', 'el valor es {c}; se acepta un número de 0 o más'],
    ['the condition is {c:cell}; accepted is {list:list}', 'el estado es {c}; se acepta {list}'],
  ],
}; // prettier-ignore
