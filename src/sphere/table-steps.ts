/**
 * Steps of a sphere that is cut at many places one after the other: a table of positions, followed first with some
 * stock left all over. What is behind the widest place of a turned ball is a table of its own, cut the other way.
 */
import { say } from '../core/words.js';
import { held, told } from '../method/action-words.js';
import type { Amount, Clear, Correct, Follow, Measure, Provide } from '../method/actions.js';
import { type Step, type StepTable, step } from '../method/steps.js';
import type { Cutting } from './sphere-steps.js';

/** What is done at all positions. */
interface Both {
  readonly follow: Follow;
  readonly behind?: Follow;
}

function shifted(follow: Follow): string {
  const { shift, way, on } = follow;
  if (!shift) return '';
  return say`${told(shift)} ${way === 'from-axis' ? 'added to' : 'taken from'} each ${on ? 'diameter' : 'distance from the axis'}${running(follow)}`;
}

/** Sentences by code. */
export const WORDS = {
  drill: ({ hole }: { hole: Provide }): string =>
    say`Drill the middle first, a hole of at most ${told(hole.size)}, its point at most ${hole.at ? told(hole.at) : ''} deep.`,
  'clear-sweep': (_values: { table: Clear }): string =>
    'With the power off go to the first and the last position by hand: nothing but the cutting edge may touch.',
  rough: ({ follow, behind }: Both): string =>
    say`Cut at all positions of the table below with ${shifted(follow)}${behind ? say`; then at all of the second table with ${shifted(behind)}` : ''}.`,
  size: ({ diameter }: { diameter: Measure }): string =>
    say`Stop the spindle. Measure the widest place that was cut: it must be ${told(diameter.must)} across, ${held(diameter.must)}.`,
  'zero-again': ({ zero }: { zero: Correct }): string =>
    say`If it is otherwise: for every ${told(zero.per)} that the diameter is larger cut all positions ${told(zero.by)} nearer to the axis than the table says; smaller: as much farther from it.`,
  positions: ({ follow, position }: { follow: Follow; position: Amount }): string =>
    say`Cut at these positions, each ${held(position)}, coming to each from the same side${running(follow)}.${ridges(follow)}`,
  'positions-behind': ({ follow, position }: { follow: Follow; position: Amount }): string =>
    say`Behind the widest place cut at these positions, each ${held(position)}, the dials' zeros as before${running(follow)}.${ridges(follow)}`,
} as const;

function running({ towards }: Follow): string {
  return towards === undefined ? '' : say`, each cut running towards the ${towards}`;
}

function ridges({ leaves }: Follow): string {
  return leaves === undefined ? '' : say` Ridges of ${told(leaves)} are left to blend.`;
}

/** A free stem that was turned first. */
export function shouldered({ size, at }: Provide): string {
  return say` Turn the free stem first, to ${told(size)}, as far as a shoulder${at ? say` ${told(at)} from where the sphere's centre shall lie` : ''}.`;
}

/** What differs between turning by steps and passes of a cutter. */
export interface Positions {
  readonly controls: Follow['controls'];
  readonly ways: Follow['ways'];
  readonly on?: 'diameter';
  readonly towards?: Follow['towards'];
  readonly table: StepTable;
  /** Behind the widest place, cut the other way. */
  readonly behind?: { readonly table: StepTable; readonly towards: Follow['towards'] };
  /** Diameter of the widest place that is cut. */
  readonly widest: number;
  readonly leftover: number;
  readonly position: number;
  readonly diameterLimit: number;
  readonly uses: string;
}

/** The steps. */
export function tableSteps(
  { unit, ball, leave, per }: Cutting,
  { controls, ways, on, towards, table, behind, widest, leftover, position, diameterLimit, uses }: Positions,
): readonly Step<keyof typeof WORDS>[] {
  const follow: Follow = {
    do: 'follow',
    table: 'positions',
    controls,
    ways,
    ...(on && { on }),
    ...(towards && { towards }),
  };
  const after: Follow | undefined = behind?.towards && {
    ...follow,
    table: 'positions-behind',
    towards: behind.towards,
  };
  const shift = { value: on ? 2 * leave : leave, unit };
  const leaves: Amount = { value: leftover, unit, limit: leftover };
  const more = (one: Follow): Follow => ({ ...one, shift, way: ball ? 'from-axis' : 'to-axis' });
  const limit: Amount = { value: 0, unit, limit: position };
  return [
    step(WORDS, 'check', 'clear-sweep', { table: { do: 'clear', control: controls[0] } }),
    step(WORDS, 'trial-cut', 'rough', { follow: more(follow), ...(after && { behind: more(after) }) }),
    step(WORDS, 'measure', 'size', {
      diameter: {
        do: 'measure',
        what: 'diameter',
        must: { value: widest + (ball ? 2 : -2) * leave, unit, limit: diameterLimit },
      },
    }),
    step(WORDS, 'correct', 'zero-again', {
      zero: {
        do: 'correct',
        measured: 'diameter',
        off: 'too-large',
        per: { value: per, unit },
        control: controls[0],
        by: { value: per / 2, unit },
        way: 'to-axis',
      },
    }),
    step(WORDS, 'finish', 'positions', { follow: { ...follow, leaves }, position: limit }, { uses, table }),
    ...(behind && after
      ? [
          step(
            WORDS,
            'finish',
            'positions-behind',
            { follow: { ...after, leaves }, position: limit },
            { uses, table: behind.table },
          ),
        ]
      : []),
  ];
}

/** Across a hole that lies well inside a socket, as parts of its radius, and how deep the sphere is there. */
const [HOLE, DEEP] = [0.5, Math.sqrt(0.75)];

/** A hole that takes most of a socket away, and none of its surface. */
export function drilled({ unit, shape, leave }: Cutting): Provide | undefined {
  const { radius, toHeight } = shape;
  const depth = DEEP * radius - toHeight - 2 * leave;
  const size = 2 * HOLE * radius - 2 * leave;
  if (!(depth > radius / 10 && size > 0)) return undefined;
  return {
    do: 'provide',
    what: 'hole',
    size: { value: size, unit, limit: leave },
    at: { value: depth, unit, limit: leave },
  };
}
