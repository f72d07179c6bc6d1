/** What if: questions and what their numbers do not say, in Spanish. Unreviewed wording. */
import type { Theme } from './match.js';

export const whatIf: Theme = {
  question: [
    ['one more allowed day a week: {d:weekdayOf}', 'un día permitido más por semana: {d}'],
    ['{m:means} for all trees', '{m} para todos los árboles'],
    ['mulch on {n:num} % of the soil', 'acolchado en el {n} % del suelo'],
    ['ET0 × {n:num}', 'ET0 multiplicada por {n}'],
    ['rain × {n:num}', 'lluvia multiplicada por {n}'],
    ['{h:num} h a day', '{h} h al día'],
  ],
  say: [
    ['{q:question}', '{q}'],
    ['{q:question} (the day that helps most)', '{q} (el día que más ayuda)'],
    ['{q:question} (no day helps the trees; this one costs least)', '{q} (ningún día ayuda a los árboles; este es el que menos cuesta)'],
    ['The season as it is, from separate visits', 'La temporada como está, con visitas separadas'],
    ['Nothing changes', 'No cambia nada'],
    ['Fewer stress days take more water', 'Menos días de estrés piden más agua'],
    ['Fewer waterings but larger ones: the means are chosen again for every tree', 'Menos riegos pero mayores: los medios se eligen otra vez para cada árbol'],
    ['{n:num} more cannot be planned at all', '{n} más no se pueden planificar'],
    ['Bans, hours and the days the crew works stay as they are', 'Las prohibiciones, las horas y los días de trabajo de la cuadrilla quedan como están'],
    ['1 tree cannot have it and stays as planned', '1 árbol no lo puede tener y queda como está planificado'],
    ['{n:num} trees cannot have it and stay as planned', '{n} árboles no lo pueden tener y quedan como están planificados'],
    ['Demand falls by {a:num} %, as {b:num} % of it is taken as soil evaporation, an assumption; the mulch itself is not priced here', 'La demanda baja un {a} %, pues se toma un {b} % de ella como evaporación del suelo, una suposición; aquí no se pone precio al acolchado'],
    ['The rain that counts stays as it is', 'La lluvia con que se cuenta queda como está'],
    ['The trees are planned as before; only full crew days change', 'Los árboles se planifican como antes; solo cambian los días llenos de cuadrilla'],
    ['Besides full crew days, the hours of a crew change how much of the open hours it can use', 'Además de los días llenos, las horas de una cuadrilla cambian cuánto puede usar de las horas permitidas'],
    ['as it is', 'como está'],
  ],
}; // prettier-ignore
