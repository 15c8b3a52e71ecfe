/** The steps of a sheet: what is set in short, blanks for what is read, and each caution beside its step. */
import { say, tell } from '../core/words.js';
import { told } from '../method/action-words.js';
import type { Action, Amount, Way } from '../method/actions.js';
import type { Caution, Step } from '../method/steps.js';
import type { SheetBlank, SheetStep } from './sheet-content.js';

/** Ways that need more than their name. */
const WAYS: Partial<Record<Way, string>> = {
  headstock: 'towards the headstock',
  tailstock: 'towards the tailstock',
  operator: 'towards the operator',
  'away-from-operator': 'away from the operator',
  left: 'to the left',
  right: 'to the right',
  'to-axis': 'towards the axis',
  'from-axis': 'away from the axis',
};

const spaced = (name: string): string => name.replaceAll('-', ' ');

/** What a step sets, in short: its settings and what proves them, or else its first sentence. */
export function inShort({ kind, text, actions }: Step): readonly string[] {
  if (kind !== 'set') return [];
  const lines = actions.flatMap((action) => {
    if (action.do === 'set') {
      const { control, reading, way, exact } = action;
      const near = exact === undefined ? '' : say` (exactly ${told({ ...reading, value: exact })})`;
      return [say`${capital(spaced(control))}: ${told(reading)}${near}${way ? say`, ${WAYS[way] ?? way}` : ''}`];
    }
    if (action.do !== 'indicate') return [];
    const { needle, travel } = action;
    return [say`Indicator: ${passing(needle) || told(needle)} over ${told(travel)}`];
  });
  return lines.length > 0 ? lines : [text.split(/(?<=\.) /)[0] as string];
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** What passes: from the least to the most; about nothing, at most so much. */
function passing({ value, unit, limit = 0, step }: Amount): string {
  if (!(limit > 0)) return '';
  if (value === 0) return say`at most ${tell(limit, { unit, limit, step })}`;
  const end = (at: number): string => tell(at, { limit, step });
  return say`${end(value - limit)} to ${tell(value + limit, { unit, limit, step })}`;
}

/** What stands behind a blank: what passes, and what to do if it does not. */
export function rule(passes: string, otherwise: string): string {
  const told = passes === '' ? '' : say` passes: ${passes};`;
  return otherwise === '' ? told : say`${told} if not: ${otherwise}`;
}

/** Steps with their blanks and cautions; cautions that belong to no step are left over. */
export function sheetSteps(
  steps: readonly Step[],
  cautions: readonly Caution[],
): { readonly steps: readonly SheetStep[]; readonly general: readonly Caution[] } {
  const place = ({ beside = [] }: Caution): number => {
    const codes = steps.map(({ code }) => code as string);
    return Math.max(
      -1,
      ...beside
        .map((code) => codes.indexOf(code))
        .filter((at) => at >= 0)
        .slice(0, 1),
    );
  };
  return {
    steps: steps.map((step, i) => ({
      ...step,
      blanks: blanksOf(step, i, steps),
      cautions: cautions.filter((one) => place(one) === i).map(({ message }) => message),
    })),
    general: cautions.filter((one) => place(one) < 0),
  };
}

function blanksOf(step: Step, at: number, steps: readonly Step[]): readonly SheetBlank[] {
  const blanks = step.actions.flatMap((action): readonly SheetBlank[] => {
    if (action.do === 'measure') {
      const { what, must } = action;
      return [{ what: spaced(what), passes: passing(must), otherwise: correction(what, at, steps) }];
    }
    if (action.do !== 'indicate') return [];
    return [{ what: 'needle', passes: passing(action.needle), otherwise: 'set again' }];
  });
  const plain = step.kind === 'measure' || step.code === 'final-check';
  return blanks.length === 0 && plain ? [{ what: 'read', passes: '', otherwise: correction('', at, steps) }] : blanks;
}

/** Where it is said what to do about a reading: the next step that corrects it, or else the last one that corrects. */
function correction(what: string, at: number, steps: readonly Step[]): string {
  const corrects = (action: Action): boolean => action.do === 'correct' && action.measured === what;
  const isNext = ({ kind, actions }: Step, i: number): boolean =>
    i >= at && (kind === 'correct' || actions.some(corrects));
  const own = steps.findIndex(({ actions }, i) => i >= at && actions.some(corrects));
  const next = own >= 0 ? own : steps.findIndex(isNext);
  const found = next >= 0 ? next : steps.map(({ kind }) => kind).lastIndexOf('correct');
  return found < 0 ? 'measure again' : found === at ? 'see there' : say`step ${tell(found + 1)}`;
}
