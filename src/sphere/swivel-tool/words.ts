/** Sentences of the steps of a swivelling tool, by code. */
import { plusMinus, say, tell } from '../../core/words.js';

/** What to do, in sentences. */
export const WORDS = {
  'tool-height': ({ unit, toolHeight }: { unit: string; toolHeight: number }): string =>
    say`Bring the tip of the tool to the height of the work's axis, ${plusMinus(toolHeight, unit)}.`,
  'swivel-centre': (values: { unit: string; swivelOffset: number; centreFromPole: number; limit: number }): string => {
    const { unit, swivelOffset, centreFromPole, limit } = values;
    return say`Set the swivel's centre under the work's axis, ${plusMinus(swivelOffset, unit)}, and ${tell(centreFromPole, { unit, limit })} from where the pole will be.`;
  },
  'swivel-radius': (values: {
    unit: string;
    trialRadius: number;
    swivelRadius: number;
    limit: number;
    swingFromDeg: number;
    swingToDeg: number;
  }): string => {
    const { unit, trialRadius, swivelRadius, limit, swingFromDeg, swingToDeg } = values;
    const [trial, finished] = [tell(trialRadius, { unit, limit }), tell(swivelRadius, { unit, limit })];
    const [from, to] = [tell(swingFromDeg, { unit: '°', limit: 1 }), tell(swingToDeg, { unit: '°', limit: 1 })];
    return say`For the trial set the tip ${trial} from the swivel's centre (finished: ${finished}), ${plusMinus(limit, unit)}. Swing from ${from} to ${to} from the axis at the free end; set stops there.`;
  },
  indicator: ({ unit, limit }: { unit: string; limit: number }): string =>
    say`Put a true cylinder in the spindle and an indicator on the swivel. Swung from one side of the cylinder to the other it must read the same, to ${tell(limit, { unit, limit })}: half the difference is how far the centre is off.`,
  'clear-sweep': (_values: Record<never, never>): string =>
    'With the power off swing the tool by hand from stop to stop: it must clear chuck, stem and slide.',
  rough: ({ unit, radius, leave, limit }: { unit: string; radius: number; leave: number; limit: number }): string =>
    say`Swing by hand in light cuts until the trial radius of ${tell(radius, { unit, limit })} is cut all over: ${tell(leave, { unit })} are left.`,
  'size-aslant': ({
    unit,
    diameter,
    diameterLimit,
  }: {
    unit: string;
    diameter: number;
    diameterLimit: number;
  }): string =>
    say`Stop the spindle. Measure the ball across at its widest place and with the micrometer leaning 45° to the axis, each ${plusMinus(diameterLimit, unit)}: both must be ${tell(diameter, { unit, limit: diameterLimit })}.`,
  size: (values: { unit: string; what: string; radius: number; diameterLimit: number }): string => {
    const { unit, what, radius, diameterLimit } = values;
    return say`Stop the spindle. Measure ${what}, ${plusMinus(diameterLimit, unit)}: the radius must be ${tell(radius, { unit, limit: diameterLimit })}.`;
  },
  'radius-and-centre': (values: {
    unit: string;
    per: number;
    changeRadius: number;
    moveCentre: number | undefined;
  }): string => {
    const { unit, per, changeRadius, moveCentre } = values;
    const told = (value: number): string => tell(value, { unit, limit: per / 10 });
    const each = tell(per, { unit });
    const aslant =
      moveCentre === undefined
        ? ''
        : say` For every ${each} that it is larger across than leaning move the swivel's centre by ${told(moveCentre)} (minus: away from the tool's side), and measure again.`;
    return say`For every ${each} that the diameter is too large change the swivel's radius by ${told(changeRadius)}.${aslant}`;
  },
} as const;
