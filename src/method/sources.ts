/**
 * Where errors come from, each declared once: its kind, what it is, and what a plan assumes where the shop states
 * nothing (careful hand work with ordinary instruments; a round value in either unit). The limits of a job, what a
 * plan assumes and says so, and which methods have a use for a limit follow from this table: a surface that takes
 * an input of one of these names has that source. Limits hold either way, angles in degrees.
 */

/**
 * Every error source: `kind` of unit, `meaning`, what is `assumed` where nothing is stated (millimetres or degrees; round
 * `assumedInches` too for lengths), and the `reason` for that value.
 */
export const SOURCES = {
  /** Angle of the top slide, in degrees. */
  topSlideDeg: {
    kind: 'angleDeg',
    meaning: 'angle of the top slide',
    assumed: 0.2,
    reason: 'common practice, no source: a slide laid against a bevel protractor by eye',
  },
  /** Angle of the guide bar, in degrees. */
  guideBarDeg: {
    kind: 'angleDeg',
    meaning: 'angle of the guide bar',
    assumed: 0.2,
    reason: 'common practice, no source: a bar laid against a bevel protractor by eye',
  },
  /** Angle of a form tool's edge, in degrees. */
  formToolDeg: {
    kind: 'angleDeg',
    meaning: "angle of a form tool's edge",
    assumed: 0.2,
    reason: "common practice, no source: a short edge laid against a protractor's blade by the light between them",
  },
  /** Set-over of the tailstock or of the boring head in it. */
  setover: {
    kind: 'length',
    meaning: 'set-over of the tailstock or of the boring head in it',
    assumed: 0.2,
    assumedInches: 0.01,
    reason: 'common practice, no source: a set-over measured with a rule',
  },
  /** Distance of the pivots. */
  centreDistance: {
    kind: 'length',
    meaning: 'distance of the pivots',
    assumed: 0.5,
    assumedInches: 0.02,
    reason: 'common practice, no source: a length taken with a rule',
  },
  /** Height of the tool. */
  toolHeight: {
    kind: 'length',
    meaning: 'height of the tool',
    assumed: 0.1,
    assumedInches: 0.004,
    reason: 'common practice, no source: a tip brought to a centre point by eye',
  },
  /** Level of the boring head in the tailstock, in degrees. */
  rollDeg: {
    kind: 'angleDeg',
    meaning: 'level of the boring head in the tailstock',
    assumed: 1,
    reason: 'common practice, no source: a head levelled by eye',
  },
  /** Diameter to which the large end is touched off. */
  touchOff: {
    kind: 'length',
    meaning: 'diameter to which the large end is touched off',
    assumed: 0.02,
    assumedInches: 0.001,
    reason: 'common practice, no source: a diameter turned to a micrometer',
  },
  /** The spindle's axis turned in plan against the bed, in degrees. */
  headstockPlanDeg: {
    kind: 'angleDeg',
    meaning: "spindle's axis turned in plan against the bed",
    assumed: 0.005,
    reason: 'common practice, no source: a bar turned in the chuck tapers by 0.05 mm in 300, 0.002 in a foot',
  },
  /** The spindle's axis turned upright against the bed, in degrees. */
  headstockUprightDeg: {
    kind: 'angleDeg',
    meaning: "spindle's axis turned upright against the bed",
    assumed: 0.01,
    reason: 'common practice, no source: an indicator on top of a test bar rises by 0.05 mm in 300, 0.002 in a foot',
  },
  /** Tilt of the mill's head, in degrees. */
  headTiltDeg: {
    kind: 'angleDeg',
    meaning: "tilt of the mill's head",
    assumed: 0.2,
    reason: 'common practice, no source: a head laid against a bevel protractor by eye',
  },
  /** Radius of the sweep. */
  sweepRadius: {
    kind: 'length',
    meaning: 'radius of the sweep',
    assumed: 0.02,
    assumedInches: 0.001,
    reason: 'common practice, no source: a sweep proved on a test ring',
  },
  /** Tip over the centre of the turning work, in the plane of the two axes. */
  miss: {
    kind: 'length',
    meaning: 'tip over the centre of the turning work, in the plane of the two axes',
    assumed: 0.05,
    assumedInches: 0.002,
    reason: 'common practice, no source: a tip set over a turning centre mark',
  },
  /** How far the two axes pass each other. */
  skew: {
    kind: 'length',
    meaning: 'how far the two axes pass each other',
    assumed: 0.05,
    assumedInches: 0.002,
    reason: 'common practice, no source: two axes aligned by an edge finder',
  },
  /** Radius of the swivelling tool. */
  swivelRadius: {
    kind: 'length',
    meaning: 'radius of the swivelling tool',
    assumed: 0.05,
    assumedInches: 0.002,
    reason: "common practice, no source: a tool's reach set with a calliper",
  },
  /** Swivel axis off the axis of the work. */
  swivelOffset: {
    kind: 'length',
    meaning: 'swivel axis off the axis of the work',
    assumed: 0.05,
    assumedInches: 0.002,
    reason: 'common practice, no source: a swivel centred by an indicator',
  },
  /** Position of a slide at a step. */
  position: {
    kind: 'length',
    meaning: 'position of a slide at a step',
    assumed: 0.02,
    assumedInches: 0.001,
    reason: "common practice, no source: a slide's dial",
  },
} as const;

/** Name of an error source. */
export type SourceName = keyof typeof SOURCES;

/** Every name, in the order of the table. */
export const SOURCE_NAMES: readonly SourceName[] = Object.keys(SOURCES) as SourceName[];

/** A limit for each error source, plus or minus. */
export type SourceLimits = { readonly [K in SourceName]: number };

/** An error for each source that has one: with its sign, 0 where it is left out. */
export type SourceErrors = { readonly [K in SourceName]?: number };

/** Whether a name is that of an error source. */
export function isSource(name: string): name is SourceName {
  return Object.hasOwn(SOURCES, name);
}
