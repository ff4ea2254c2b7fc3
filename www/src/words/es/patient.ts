import type { Beside } from '../../state/patient/facts';
import type { Remedy } from '../../state/patient/remedy_model';
import type { Amount, Clause, Way, Where } from '../../state/patient/sentence_model';
import type { Thing } from '../../state/patient/thing';
import type { Third } from '../../state/stains/typed_plan';
import type { Words } from '../index';
import { listed, of, upper } from './grammar';

/** Crown and veneer are both feminine: so is all that is said of them. */
const THING: Record<Thing, string> = { crown: 'corona', veneer: 'carilla' };
const BESIDE: Record<Beside, string> = { neighbour: 'el diente de al lado', tooth: 'el diente con el que se comparó', sample: 'la muestra con la que se comparó' };
const WAYS: Record<Way, string> = { brighter: 'más clara', darker: 'más oscura', stronger: 'más intensa de color', paler: 'menos intensa de color', yellower: 'más amarillenta', redder: 'más rojiza' };
const AMOUNT: Record<Amount, string> = { little: 'un poco', clearly: 'claramente', much: 'mucho' };
const DIFFERENT: Record<Amount, string> = { little: 'un poco distinta', clearly: 'claramente distinta', much: 'muy distinta' };
const THIRD: Record<Third, string> = { cervical: 'cerca de la encía', middle: 'en el centro', incisal: 'cerca del borde' };

const where = ({ thirds, mostly }: Where): string => (thirds.length === 3 ? 'en toda la superficie' : `${mostly ? 'sobre todo ' : ''}${listed(thirds.map((t) => THIRD[t]))}`);
const how = ({ amount, ways }: Clause): string => `${AMOUNT[amount]} ${listed(ways.map((w) => WAYS[w]))}`;

/** "Su corona es mucho más clara que el diente de al lado, sobre todo cerca del borde, y un poco más rojiza cerca de la encía". */
const differs = ([first, ...others]: readonly Clause[], thing: Thing, beside: string): string =>
  first
    ? `su ${THING[thing]} es ${first.ways.length > 0 ? `${how(first)} que ${beside}` : `${DIFFERENT[first.amount]} ${of(beside)}`}, ${where(first.where)}` +
      others.map((c) => `, y ${how(c)}${c.where.mostly ? ',' : ''} ${where(c.where)}`).join('')
    : '';

const coats = (n: number): string => `${['', 'una capa fina', 'dos capas finas', 'tres capas finas'][n] ?? 'varias capas finas'} de pintura`;

function remedied(remedy: Remedy | null, thing: Thing): string {
  if (!remedy) return '';
  if (remedy.kind === 'darkens') return '; este tipo de pintura solo puede oscurecer, así que su dentista hablará con usted de otras opciones';
  if (remedy.kind === 'no-gain') return `; pintar la ${THING[thing]} no acercaría los colores`;
  const could = remedy.coats === 1 ? 'podría' : 'podrían';
  const end = {
    together: 'igualar los colores',
    'closer-maybe': 'acercar los colores, aunque quizá quede una pequeña diferencia',
    closer: 'acercar los colores, pero quedaría alguna diferencia',
  }[remedy.kind];
  return `; ${coats(remedy.coats)} ${could} ${end}${remedy.price ? `, y su ${THING[thing]} podría verse un poco más plana` : ''}`;
}

/** What a patient reads: no number, no code, no name, nothing for certain that is not. */
export const patient: Words['patient'] = {
  show: 'Mostrar al paciente',
  notYet: 'Todavía no hay nada que mostrar al paciente.',
  title: 'Para el paciente',
  setup: 'Antes de girar la pantalla: esto es una',
  kinds: THING,
  ready: 'Entregar',
  tooth: (beside) => (beside === 'sample' ? 'La muestra' : 'Su diente'),
  yours: (thing) => `Su ${THING[thing]}`,
  picture: (what, look) => `${what}, en vertical, ${{ now: 'tal como es', grey: 'solo en claro y oscuro', painted: 'según el cálculo, una vez pintada' }[look]}`,
  waiting: 'Se están preparando las imágenes…',
  choice: 'Qué muestran las imágenes',
  choose: { now: 'Como es', grey: 'Claro y oscuro', painted: 'Ya pintada' },
  example: 'Ya pintada (ejemplo)',
  shown: {
    grey: 'Solo claro y oscuro, sin ningún color.',
    painted: 'Es una imagen calculada, no una promesa.',
  },
  inventedShown: 'Es solo un ejemplo, con pinturas inventadas: no dice nada de su propio diente.',
  inColour: 'Aquí se ven iguales: la diferencia está en el color.',
  slide: { label: 'De ahora a ya pintada', now: 'ahora', after: 'después', at: (share) => (share < 0.05 ? 'como está ahora' : share < 0.4 ? 'un poco pintada' : share <= 0.6 ? 'a medio pintar' : share < 0.95 ? 'casi pintada' : 'ya pintada') },
  said({ difference, remedy, beside: target, partly }, thing) {
    const beside = BESIDE[target];
    const text = {
      unsure: () => `con esta foto no se puede asegurar que haya una diferencia entre su ${THING[thing]} y ${beside}`,
      alike: () => `su ${THING[thing]} y ${beside} se parecen tanto que la mayoría no vería ninguna diferencia`,
      hardly: () => `su ${THING[thing]} y ${beside} apenas se diferencian`,
      differs: () => (difference.kind === 'differs' ? differs(difference.clauses, thing, beside) : ''),
    }[difference.kind]();
    return `${upper(`${partly && difference.kind !== 'unsure' ? 'hasta donde la foto permite ver, ' : ''}${text}${remedied(remedy, thing)}`)}.`;
  },
  decides: 'Su dentista decide qué se hace.',
  back: 'Volver (mantenga)',
  holding: ['Siga pulsando…', 'Ya casi…'],
  holdHint: 'Manténgalo pulsado un momento para volver a las medidas. Una pulsación breve pregunta antes.',
  ask: '¿Volver a las medidas?',
  yes: 'Sí',
  no: 'No',
};
