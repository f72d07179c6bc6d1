/** What a plan says of its trees, in Spanish: why a day, why a means, what would help. Unreviewed wording. */
import type { Pair, Theme } from './match.js';

export const plan: Theme = {
  before: [
    ['the end of the season', 'el fin de la temporada'],
    ['the next allowed day, {d:day}', 'el próximo día permitido, {d}'],
  ],
  bound: [
    ['this tree without stress', 'este árbol sin estrés'],
    ['this tree within {n:count}', 'este árbol con {n} como mucho'],
  ],
  numbers: [['{money} a tree, {n:count}, {water}', '{money} por árbol, {n}, {water}']],
  /** why a device cannot serve a tree */
  refused: [
    ['the row asks for {m:means}', 'la fila pide {m}'],
    ['the stem is too thick for bags', 'el tronco es demasiado grueso para bolsas'],
    ['no tap and no tanker to fill a bag', 'no hay toma de agua ni cisterna para llenar una bolsa'],
    ['a pad covers the ball of young stock only', 'una almohadilla solo cubre el cepellón de árboles jóvenes'],
    ['no tap', 'no hay toma de agua'],
    ['no measured output or length for it', 'no tiene caudal medido ni longitud'],
  ],
  lacking: [['{name:device}: {why:refused}', '{name}: {why}']],
  instead: [
    ['The row asks for {wish:means}; {m:means} instead', 'La fila pide {wish}; en su lugar {m}'],
    ['With a tap in reach, {m:means}', 'Con una toma de agua al alcance, {m}'],
  ],
  say: [
    ['{m:means}', '{m}'],
    ['not possible: {why:refused}', 'no es posible: {why}'],
    ['{a:num} % of the usable water is used; without watering {b:num} % before {when:before}', 'se ha usado el {a} % del agua útil; sin riego sería el {b} % antes de {when}'],
    ['The pad would fall to its reserve before the next allowed day: lift it and soak it', 'La almohadilla bajaría a su reserva antes del próximo día permitido: levántela y remójela'],
    ['Somebody is here today, and {n:num} % of the usable water is used: watered with the others', 'Hoy hay alguien en el sitio y se ha usado el {n} % del agua útil: se riega con los demás'],
    ['Moved from {d:day}, when the crews had more work than hours', 'Pasado del {d}, cuando las cuadrillas tenían más trabajo que horas'],
    ['Put forward by {n:count} from {d:day}, when the crews had more work than hours; later waterings follow from this one', 'Adelantado {n} desde el {d}, cuando las cuadrillas tenían más trabajo que horas; los riegos siguientes parten de este'],
    ['No means keeps {bound:bound}; {m:meansName} comes closest with {n:count}: {numbers:numbers}', 'Ningún medio sostiene {bound}; el más cercano es {m} con {n}: {numbers}'],
    ['Only {m:meansName} keeps {bound:bound}: {numbers:numbers}', 'Solo {m} sostiene {bound}: {numbers}'],
    ['{m:meansName} is the cheapest of {n:num} means that keep {bound:bound}: {numbers:numbers}', '{m} es el más barato de {n} medios que sostienen {bound}: {numbers}'],
    ['Next is {m:meansName}, {money} more', 'Le sigue {m}, {money} más'],
    ['{m:meansName} keeps {bound:bound}: {numbers:numbers}', '{m} sostiene {bound}: {numbers}'],
    ['{m:meansName} would cost {money} less for this tree alone; the means was chosen for all trees together', '{m} costaría {money} menos solo para este árbol; el medio se eligió para todos los árboles a la vez'],
    ['Cannot be met under these rules: {n:count} with {m:means}', 'No se puede cumplir con estas reglas: {n} con {m}'],
    ['On all {b:num} allowed days the open hours ({h}) lie outside the crew\'s day ({s})', 'En los {b} días permitidos las horas abiertas ({h}) quedan fuera de la jornada de la cuadrilla ({s})'],
    ['On {a:num} of {b:num} allowed days the open hours ({h}) lie outside the crew\'s day ({s})', 'En {a} de {b} días permitidos las horas abiertas ({h}) quedan fuera de la jornada de la cuadrilla ({s})'],
    ['With the crew\'s day starting at {t:clock}, {m:means} would leave {n:count}', 'Si la jornada de la cuadrilla empieza a las {t}, {m} dejaría {n}'],
    ['With any day allowed, {m:means} would leave {n:count}: ask for a variance, or for water from an exempt source', 'Con cualquier día permitido, {m} dejaría {n}: pida una excepción, o agua de un origen exento'],
    ['With one more allowed day a week, {d:weekdayOf}, {m:means} would leave {n:count}', 'Con un día permitido más por semana, el {d}, {m} dejaría {n}'],
    ['{what:instead} would leave {n:count}', '{what} dejaría {n}'],
    ['{m:means}, or a larger one of {v:num} L ({g:num} gal), would leave {n:count}', '{m}, o una mayor de {v} L ({g} gal), dejaría {n}'],
    ['{name} was not tried: {why:refused}', '{name} no se probó: {why}'],
    ['Neither more days, nor another means of the kit, nor more bags would help: a means with more water is needed', 'No ayudarían ni más días, ni otro medio del equipo, ni más bolsas: hace falta un medio con más agua'],
    ['{n:count} with {m:means}, because the stock is short; {old:means} would leave {k:num}', '{n} con {m}, porque las existencias no alcanzan; {old} dejaría {k}'],
    ['planted after the season ends: nothing to plan this season', 'plantado después de acabar la temporada: nada que planificar en esta'],
    ['no device of the kit can serve this tree: {list:lacking}', 'ningún aparato del equipo sirve para este árbol: {list}'],
    ['no device is left in stock for it; alone it would have {m:means}', 'no queda ningún aparato en existencia para él; solo tendría {m}'],
    ['Row {n:num} is not planned: {why:say}', 'La fila {n} no está planificada: {why}'],
    ['Row {n:num} holds no tree of this plan; {span:span}', 'En la fila {n} no hay ningún árbol de este plan; {span}'],
  ],
  span: [
    ['planned are {n:num} rows from {a:num} to {b:num}', 'están planificadas {n} filas, de la {a} a la {b}'],
    ['no row is planned', 'no hay ninguna fila planificada'],
  ],
  meansName: [['“{m:means}”', '«{m}»']],
}; // prettier-ignore

export const planJoints: Readonly<Record<string, readonly Pair[]>> = { lacking: [['; ', '; ']] };
