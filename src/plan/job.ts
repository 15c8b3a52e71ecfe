/**
 * A job as plain data: the part, the machines that may cut it, and how well things can be set and
 * measured here. Lengths are all in the job's unit, angles in degrees, limits are plus or minus.
 * `docs/job.schema.json` is generated from these types.
 */
import type { AngleScale, Dial } from '../core/dial.js';
import type { BallCentreEnd } from '../offset/between-balls/index.js';
import type { GuideBarScale } from '../offset/guide-bar/scale.js';
import type { SphereTarget } from '../sphere/target.js';
import type { Taper } from '../taper/taper.js';

/** What to make, on what, how well. */
export interface Job {
  /** What the part is called. */
  readonly title: string;
  /** Unit of all lengths; for labels only. */
  readonly unit: 'mm' | 'in';
  /** The part. */
  readonly part: TaperPart | SpherePart;
  /** Lathes that may cut it. */
  readonly lathes?: readonly Lathe[];
  /** Milling machines that may cut it. */
  readonly mills?: readonly Mill[];
  /** How well things can be set here; what is left out is assumed, and the plan says so. */
  readonly setting?: SettingLimits;
  /** How well things can be measured here; what is left out is assumed, and the plan says so. */
  readonly measuring?: MeasuringLimits;
  /** Coverage probability of stated intervals; 0.95 if left out. */
  readonly coverage?: number;
}

/** A taper on a piece of work. */
export interface TaperPart {
  /** A taper. */
  readonly kind: 'taper';
  /** The taper itself. */
  readonly taper: Taper;
  /** Turned outside or bored inside. */
  readonly side: 'outside' | 'inside';
  /** Diameter at the large end. */
  readonly largeDiameter: number;
  /** Length of the taper along the axis. */
  readonly length: number;
  /** Length of the whole piece, face to face. */
  readonly workLength: number;
  /** Distance of the large end from the face at the headstock. */
  readonly largeEndAt: number;
  /** Which end of the taper looks to the headstock. */
  readonly headstockEnd: 'large' | 'small';
  /** Whether the piece may have centre holes in both ends. */
  readonly centreHoles: boolean;
  /** Shoulders and flanges beside the taper. */
  readonly shoulders?: readonly Shoulder[];
  /** Diameter of the stock; the large diameter if left out. */
  readonly stockDiameter?: number;
  /** What must be held: the half angle, the difference of the end diameters, or both. */
  readonly tolerance: {
    /** Limit of the half angle, in degrees. */
    readonly halfAngleDeg?: number;
    /** Limit of the error of the small diameter, the large one being touched off to size. */
    readonly smallDiameter?: number;
  };
}

/** A shoulder or flange beside a taper. */
export interface Shoulder {
  /** At which end of the taper. */
  readonly at: 'large' | 'small';
  /** Its diameter. */
  readonly diameter: number;
  /** Free length between the end of the taper and the shoulder. */
  readonly gap: number;
}

/** A ball or a socket. */
export interface SpherePart {
  /** A sphere. */
  readonly kind: 'sphere';
  /** The ball or socket. */
  readonly target: SphereTarget;
  /** Diameter of the stock (ball) or of the face (socket); the sphere's own if left out. */
  readonly stockDiameter?: number;
  /** What must be held. */
  readonly tolerance: {
    /** Limit of the error of the radius. */
    readonly radius: number;
    /** Largest form deviation: width between two spheres about one centre; not asked for if left out. */
    readonly form?: number;
  };
}

/** A lathe; leave out what it does not have. */
export interface Lathe {
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
  /** Top slide. */
  readonly topSlide?: {
    /** Travel along itself. */
    readonly travel: number;
    /** Swivel scale. */
    readonly scale?: AngleScale;
    /** Foremost point of the slide, seen from the tip; the same is taken at its other end. */
    readonly nose?: {
      /** Ahead of the tip, along the slide. */
      readonly ahead: number;
      /** Back from the tip, square to the slide. */
      readonly back: number;
    };
  };
  /** Guide bar (taper attachment). */
  readonly guideBar?: {
    /** Longest cut that it guides. */
    readonly travel: number;
    /** Its scale. */
    readonly scale: GuideBarScale;
    /** How far it swings, in degrees of the half angle. */
    readonly largestHalfAngleDeg: number;
  };
  /** Tailstock that can be set over. */
  readonly tailstock?: {
    /** Largest set-over. */
    readonly setover: number;
    /** Its dial, if it has one. */
    readonly dial?: Dial;
  };
  /** Largest tilt of the work on its plain centres, in degrees. */
  readonly largestCentreTiltDeg?: number;
  /** Boring head in the tailstock, and balls at both ends of the work. */
  readonly ballCentres?: {
    /** Largest offset of the head. */
    readonly offset: number;
    /** Its dial. */
    readonly dial?: Dial;
    /** Seat and ball at the headstock. */
    readonly headstock: CentreBall;
    /** Seat and ball at the tailstock. */
    readonly tailstock: CentreBall;
  };
  /** A tool that swivels about an upright axis. */
  readonly swivelTool?: {
    /** Smallest radius that it reaches. */
    readonly smallestRadius: number;
    /** Largest radius that it reaches. */
    readonly largestRadius: number;
  };
  /** Cross slide and carriage, for turning a sphere by steps. */
  readonly slides?: {
    /** One graduation of their dials. */
    readonly step: number;
    /** Nose radius of the tool used for it. */
    readonly noseRadius: number;
  };
}

/** A ball in a centre hole of the work; the hole must be stated, since the work is measured between its end faces. */
export type CentreBall = BallCentreEnd & {
  /** Diameter of the centre hole's cone at the end face. */
  readonly mouthDiameter: number;
};

/** A milling machine with a boring head and a rotary table. */
export interface Mill {
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
  /** Boring head. */
  readonly boringHead?: {
    /** Its dial; `from` and `to` are the least and the largest sweep. */
    readonly dial: Dial;
    /** Radius of its body. */
    readonly bodyRadius?: number;
    /** How far the tip reaches beyond the body, along the spindle. */
    readonly toolReach?: number;
  };
  /** Ball-ended cutters at hand, by diameter. */
  readonly ballCutters?: readonly number[];
}

/** How well things can be set, plus or minus. */
export interface SettingLimits {
  /** Angle of the top slide, in degrees. */
  readonly topSlideDeg?: number;
  /** Angle of the guide bar, in degrees. */
  readonly guideBarDeg?: number;
  /** Set-over of the tailstock or of the boring head in it. */
  readonly setover?: number;
  /** Distance of the pivots. */
  readonly centreDistance?: number;
  /** Height of the tool. */
  readonly toolHeight?: number;
  /** Level of the boring head in the tailstock, in degrees. */
  readonly rollDeg?: number;
  /** Diameter to which the large end is touched off. */
  readonly touchOff?: number;
  /** Tilt of the mill's head, in degrees. */
  readonly headTiltDeg?: number;
  /** Radius of the sweep. */
  readonly sweepRadius?: number;
  /** Tip over the centre of the turning work, in the plane of the two axes. */
  readonly miss?: number;
  /** How far the two axes pass each other. */
  readonly skew?: number;
  /** Radius of the swivelling tool. */
  readonly swivelRadius?: number;
  /** Swivel axis off the axis of the work. */
  readonly swivelOffset?: number;
  /** Position of a slide at a step. */
  readonly position?: number;
  /** How well a change of a setting is made, as a fraction of the limit of setting it afresh. */
  readonly resettingFraction?: number;
}

/** How well things can be measured, plus or minus. */
export interface MeasuringLimits {
  /** A diameter. */
  readonly diameter?: number;
  /** A distance along the axis. */
  readonly length?: number;
}
