/**
 * What a method of cutting offers. A method is one folder; its `method.ts` ties the folder into one {@link Method},
 * its `sheet.ts` into one {@link MethodSheet} (apart, so that a plan without a sheet does not carry drawings, sentences
 * and corrections). Whoever leaves something out does not compile; the plan names no method, it goes through the list.
 */
import type { Fields } from '../core/read.js';
import type { Expected } from './expect.js';
import type { Limit } from './limits.js';
import type { Means } from './means.js';
import type { FilledShop } from './shop.js';
import type { SourceErrors, SourceLimits, SourceName } from './sources.js';
import type { Caution, Step } from './steps.js';

/** A part to make; each kind belongs to the room of its methods. */
interface AnyPart {
  readonly kind: string;
}

/** A part in the shop that makes it, nothing left open. Lengths in `unit`, angles in degrees, limits plus or minus. */
export interface Work<P extends AnyPart> {
  readonly part: P;
  readonly unit: 'mm' | 'in';
  /** How well things can be set here. */
  readonly setting: SourceLimits & {
    /** How well a change of a setting is made, as a fraction of the limit of setting it afresh. */
    readonly resettingFraction: number;
  };
  /** The limits that the job states itself; the others are assumed. */
  readonly stated: readonly SourceName[];
  /** What there is to set things with. */
  readonly shop: FilledShop;
  /** How well things can be measured here. */
  readonly measuring: {
    /** A diameter. */
    readonly diameter: number;
    /** A distance along the axis. */
    readonly length: number;
  };
  /** Coverage probability of stated intervals. */
  readonly coverage: number;
  /** Simulated parts for an expectation. */
  readonly trials: number;
}

/** What every lathe has. */
export interface LatheBase {
  /** What it is called here. */
  readonly name: string;
  /** Largest distance between centres. */
  readonly centreDistance: number;
  /** The tool post, beside and behind the tip. */
  readonly toolPost?: {
    /** Half its width along the bed. */
    readonly halfWidth: number;
    /** How far the tip stands out before it. */
    readonly toolReach: number;
  };
}

/** What every milling machine has. */
export interface MillBase {
  /** What it is called here. */
  readonly name: string;
  /** How the rotary table stands: work axis upright (`flat`) or level (`upright`). */
  readonly table: 'flat' | 'upright';
  /** How the head tilts. */
  readonly headTilt: {
    /** Largest tilt from upright, in degrees. */
    readonly largestDeg: number;
    /** One graduation of its scale, in degrees. */
    readonly stepDeg?: number;
  };
}

/** The machines, by the key of a job's list of them. */
export interface Machines {
  readonly lathes: LatheBase;
  readonly mills: MillBase;
}

/** The types of a method. */
export interface MethodTypes {
  /** Its name. */
  readonly name: string;
  /** The kind of part. */
  readonly part: AnyPart;
  /** The kind of machine. */
  readonly on: keyof Machines;
  /** What a machine's description may hold for it: keys that may be left out. */
  readonly equipment: object;
  /** What of that must be there. */
  readonly needs: object;
  /** Its settings, plain data. */
  readonly settings: object;
  /** The surface that settings really cut, plain data. */
  readonly surface: object;
  /** What is measured on a trial. */
  readonly measured: object;
  /** What to change then, plain data. */
  readonly correction: object;
  /** Codes of its limits. */
  readonly limit: string;
  /** Codes of the steps of its work. */
  readonly step: string;
  /** Codes of its cautions. */
  readonly caution: string;
}

/** A machine with all that the method needs. */
type Equipped<T extends MethodTypes> = Machines[T['on']] & T['equipment'] & T['needs'];

/** A method of cutting a part, as it is planned: what it can do, what to set, how far off that may come out. */
export interface Method<T extends MethodTypes> {
  readonly name: T['name'];
  readonly kind: T['part']['kind'];
  readonly on: T['on'];
  /** Ease of the set-up: 1 is the easiest. */
  readonly ease: number;
  /** Readers of what a machine's description may hold for it. */
  readonly equipment: Fields<T['equipment']>;
  /** Whether a machine has what the method needs. */
  readonly has: (machine: Machines[T['on']] & T['equipment']) => machine is Equipped<T>;
  /** The sentence that it has not. */
  readonly missing: (machineName: string) => string;
  /** The error sources that act on it. */
  readonly sources: readonly SourceName[];
  /** What it sets by means, and those at hand on a machine; null where nothing is chosen. */
  readonly setBy: SetBy<T> | null;
  /** What it takes for granted of a machine, or of a part, that does not state it. */
  readonly assumes: (
    machine: Equipped<T>,
    part: T['part'],
  ) => readonly { readonly key: string; readonly of?: 'part'; readonly value: number; readonly reason: string }[];
  /** What it must be able to do for this part. */
  readonly limits: (work: Work<T['part']>, machine: Equipped<T>) => readonly Limit<T['limit']>[];
  /** What to set, on the machine's own scales. */
  readonly settings: (work: Work<T['part']>, machine: Equipped<T>) => T['settings'];
  /** What only the settings show that it must be able to do; nothing for most methods. */
  readonly limitsOfSettings: (
    settings: T['settings'],
    work: Work<T['part']>,
    machine: Equipped<T>,
  ) => readonly Limit<T['limit']>[];
  /** How far off each tolerance may come out, its limit of setting being that of the means chosen. */
  readonly expected: (
    work: Work<T['part']>,
    machine: Equipped<T>,
    settings: T['settings'],
    means: Means | null,
  ) => Expected;
}

/** What a method sets by one means or another. */
interface SetBy<T extends MethodTypes> {
  /** The error source whose limit follows. */
  readonly source: SourceName;
  /** An error that an indicator on a true cylinder in place of the work finds and takes along, wherever there is one. */
  readonly indicated?: SourceName;
  /** The means at hand. */
  readonly atHand: (work: Work<T['part']>, machine: Equipped<T>) => readonly Means[];
}

/** A method that was planned, as its sheet needs it. */
export interface Planned<T extends MethodTypes> {
  readonly work: Work<T['part']>;
  readonly machine: Equipped<T>;
  readonly settings: T['settings'];
  readonly limits: readonly Limit<T['limit'] | 'equipment' | 'set-up'>[];
  readonly expectations: Expected['expectations'];
  /** By what its own setting is made; the limit of `work.setting` is that of the means. */
  readonly means: Means | null;
  /** What the plan promises. */
  readonly tries: number;
  readonly probability: number;
  readonly meets: boolean;
}

/** How a drawing shall look. */
export interface Looks {
  readonly title?: string;
  readonly width?: number;
  readonly theme?: 'auto' | 'light' | 'dark';
  readonly brief?: boolean;
}

/** A method as a person meets it: the order of work, the drawing, the cautions, what is really cut, what to change. */
export interface MethodSheet<T extends MethodTypes> {
  readonly name: T['name'];
  /** What it is called on a sheet. */
  readonly title: string;
  /** The order of work. */
  readonly work: (planned: Planned<T>) => readonly Step<T['step']>[];
  /** The set-up as SVG text. */
  readonly figure: (planned: Planned<T>, looks: Looks) => string;
  /** Where a hand or a machine can come to harm by this method. */
  readonly cautions: (planned: Planned<T>) => readonly Caution<T['caution']>[];
  /** The surface that these settings really cut, with errors by source. */
  readonly surface: (
    work: Work<T['part']>,
    machine: Equipped<T>,
    settings: T['settings'],
    errors: SourceErrors,
  ) => T['surface'];
  /** What to change after a measured trial. */
  readonly correction: (
    work: Work<T['part']>,
    machine: Equipped<T>,
    settings: T['settings'],
    measured: T['measured'],
  ) => T['correction'];
}
