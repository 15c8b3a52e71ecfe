/**
 * What a person does at a machine, as data: with which control, to which reading, which way, how well. A step is made
 * of actions and its sentence of nothing else, so that a program can carry out what a person is told. Ways are those
 * that the person before the machine sees, as docs/conventions.md draws them.
 */

/** A number with its unit, how well it is held (plus or minus), and the graduation on which it is set or read. */
export interface Amount {
  /** The number. */
  readonly value: number;
  /** `mm`, `in`, `°`, `minutes of arc`, … */
  readonly unit: string;
  /** Plus or minus. */
  readonly limit?: number;
  /** One graduation, or the last place that counts. */
  readonly step?: number | undefined;
}

/** Which way. Clockwise is seen from above on a lathe, from the front on a mill. */
export type Way =
  | 'headstock'
  | 'tailstock'
  | 'operator'
  | 'away-from-operator'
  | 'left'
  | 'right'
  | 'up'
  | 'down'
  | 'clockwise'
  | 'anticlockwise'
  /** Square to the work's axis. */
  | 'to-axis'
  | 'from-axis'
  /** Along the tool's spindle. */
  | 'forward'
  | 'back'
  /** Of a sweep, a jaw or a radius. */
  | 'open'
  | 'close'
  /** Of a guide against the work's axis. */
  | 'steeper'
  | 'flatter';

/** What is set, moved, clamped or fed. */
export type Control =
  | 'bed'
  | 'work'
  | 'spindle'
  | 'tool'
  | 'drill'
  | 'carriage'
  | 'cross-slide'
  | 'top-slide'
  | 'guide-bar'
  | 'tailstock'
  | 'barrel'
  | 'tailstock-head'
  /** The boring head's shank in the barrel: it turns the head. */
  | 'shank'
  /** What holds the guide bar to the bed. */
  | 'bracket'
  /** A swivelling tool's radius, and the stops of its swing. */
  | 'swivel-tool'
  | 'first-stop'
  | 'last-stop'
  | 'head'
  | 'quill'
  /** A mill's table as it goes left and right, in and out, up and down. */
  | 'table'
  | 'saddle'
  | 'knee'
  | 'rotary-table'
  /** The slide of a boring head, by its dial. */
  | 'boring-head';

/** A place on the work. */
export type Place = 'headstock-face' | 'tailstock-face' | 'large-end' | 'small-end' | 'lower-mark' | 'upper-mark';

/** Makes fast, frees, takes away or puts back. */
export interface Secure {
  /** What is done. */
  readonly do: 'hold' | 'clamp' | 'unclamp' | 'lock' | 'unlock' | 'take-out' | 'put-back' | 'ease';
  /** What it is done to. */
  readonly what: Control;
  /** Which way it then looks: the work's free end. */
  readonly way?: Way;
  /** What holds it. */
  readonly by?: 'chuck' | 'centres' | 'balls';
}

/** Has ready, or makes ready by plain work, what the rest needs. */
export interface Provide {
  /** What is done. */
  readonly do: 'provide';
  /** `stock`, `face-stock`, `stem`, `hole`, `cutter`, … */
  readonly what: string;
  /** Its size. */
  readonly size: Amount;
  /** Where it begins or how deep it is. */
  readonly at?: Amount;
  /** On which side it goes. */
  readonly way?: Way;
}

/** Turns a spindle or a swivel by hand. */
export interface Turn {
  /** What is done. */
  readonly do: 'turn';
  /** The control. */
  readonly control: Control;
  /** Which way the tool then stands on its circle. */
  readonly way: Way;
}

/** Draws back until nothing touches. */
export interface Withdraw {
  /** What is done. */
  readonly do: 'withdraw';
  /** The control. */
  readonly control: Control;
  /** Which way. */
  readonly way: Way;
}

/** With the power off goes by hand through the whole movement: nothing but the cutting edge may touch. */
export interface Clear {
  /** What is done. */
  readonly do: 'clear';
  /** The control. */
  readonly control: Control;
}

/** Goes through the positions of a table. */
export interface Follow {
  /** What is done. */
  readonly do: 'follow';
  /** Code of the step that holds the table. */
  readonly table: string;
  /** What the columns set, from the zeros that earlier actions found. */
  readonly controls: readonly [Control, Control];
  /** On which side of the work the tool stands, and which way the second column grows. */
  readonly ways: readonly [Way, Way];
  /** Whether the first column is told on the diameter. */
  readonly on?: 'diameter';
  /** Which way each cut runs, where it matters. */
  readonly towards?: Way;
  /** Ridges that are left between the positions. */
  readonly leaves?: Amount;
  /** Added to every position of the first column, or taken from it. */
  readonly shift?: Amount;
  /** Which way that is. */
  readonly way?: Way;
}

/** Reckons from what was measured. */
export interface Reckon {
  /** What is done. */
  readonly do: 'reckon';
  /** What is found, as {@link Measure} would call it. */
  readonly what: string;
  /** `chord-and-height`: radius = diameter²/(8 height) + height/2; `across-less-aslant`: of two diameters. */
  readonly rule: 'chord-and-height' | 'across-less-aslant';
  /** What it must be, and what passes. */
  readonly must: Amount;
}

/** Does earlier steps again, where something was corrected. */
export interface Repeat {
  /** What is done. */
  readonly do: 'repeat';
  /** Code of the step to begin with. */
  readonly from: string;
  /** Code of the last one. */
  readonly to: string;
}

/** Gives a place on the work a name. */
export interface MarkPlace {
  /** What is done. */
  readonly do: 'mark';
  /** The name. */
  readonly what: Place;
  /** How far it lies from another place, along the axis. */
  readonly at: Amount;
  /** That place. */
  readonly from: Place;
}

/** Lays something true where a guide is set along it. */
export interface Lay {
  /** What is done. */
  readonly do: 'lay';
  /** A master of the taper in place of the work, a sine bar along a cylinder, or one across on a faceplate. */
  readonly what: 'master' | 'sine-bar' | 'sine-bar-across';
  /** Length of the bar, height of its blocks. */
  readonly sizes: readonly Amount[];
  /** Where the master's large end looks, or which roller has the blocks behind it. */
  readonly way: Way;
}

/** Sets a stop, so that a feed ends at a place. */
export interface Stop {
  /** What is done. */
  readonly do: 'stop';
  /** What is stopped. */
  readonly control: Control;
  /** Where the tip then stands. */
  readonly at: Place;
}

/** Lets a dial or a needle read a value at a place that was found. */
export interface Zero {
  /** What is done. */
  readonly do: 'zero';
  /** The control. */
  readonly control: Control;
  /** How the place is found. */
  readonly where: string;
  /** What it then reads; left out, it reads whatever it does: that is noted, and later readings count from it. */
  readonly reads?: Amount;
}

/** Sets a control to a reading of its own scale. */
export interface SetReading {
  /** What is done. */
  readonly do: 'set';
  /** The control. */
  readonly control: Control;
  /** The reading to set. */
  readonly reading: Amount;
  /** The reading wanted, where the nearest graduation is another. */
  readonly exact?: number;
  /** Which way from its zero. */
  readonly way?: Way;
  /** From which side the reading is reached, so that lost motion is taken up. */
  readonly from?: 'below' | 'above';
}

/** Moves a control by so much. */
export interface Move {
  /** What is done. */
  readonly do: 'move';
  /** The control. */
  readonly control: Control;
  /** By how much. */
  readonly by: Amount;
  /** Which way. */
  readonly way: Way;
}

/** Cuts: feeds a control until its dial, or what is left, reads so much. */
export interface Feed {
  /** What is done. */
  readonly do: 'feed';
  /** The control. */
  readonly control: Control;
  /** Which way. */
  readonly way: Way;
  /** Reading of the dial where the tool first meets the work. */
  readonly from?: Amount;
  /** Largest feed at a time. */
  readonly each?: Amount;
  /** Reading of the dial, from the zero that an earlier action found. */
  readonly to?: Amount;
  /** How far before the taper, or whatever is cut, it begins. */
  readonly before?: Amount;
  /** What gives the depth of each cut, and which way. */
  readonly depth?: Control;
  /** Which way the depth is given. */
  readonly deeper?: Way;
  /** Diameter at which the work measures enough, and where. */
  readonly until?: Amount;
  /** Where it is cut. */
  readonly at?: Place;
  /** Of a drill: its diameter, at most. */
  readonly size?: Amount;
}

/** Brings the cutting edge to where it just touches. */
export interface Touch {
  /** What is done. */
  readonly do: 'touch';
  /** What it touches: `end-face`, `shoulder`, `free-stem`, … */
  readonly on: string;
  /** What moves until it touches. */
  readonly control?: Control;
  /** Which way. */
  readonly way?: Way;
  /** What touches, where it is not the cutting edge. */
  readonly with?: string;
  /** On which side of the work, or of a bore. */
  readonly side?: Way;
  /** How close is close enough. */
  readonly within?: Amount;
}

/** Reads the movement of a needle while a control travels. */
export interface Indicate {
  /** What is done. */
  readonly do: 'indicate';
  /** What carries the indicator. */
  readonly on: Control;
  /** What the plunger rests on. */
  readonly against: string;
  /** What travels, how far, which way. */
  readonly control: Control;
  /** How far it travels. */
  readonly travel: Amount;
  /** Which way. */
  readonly way: Way;
  /** What the needle must show; its limit is what passes. */
  readonly needle: Amount;
  /** `in`: the plunger is pushed in. */
  readonly sense: 'in' | 'out' | 'still';
  /** What is moved until the needle shows it, where it does not. */
  readonly adjust?: Control;
}

/** Measures the part; what it must be at this stage, and what passes. */
export interface Measure {
  /** What is done. */
  readonly do: 'measure';
  /** `difference`, `diameter`, `pip`, `depth`, … */
  readonly what: string;
  /** Where, in words or as a distance. */
  readonly at?: string;
  /** A diameter that is taken from the one at `at`. */
  readonly less?: string;
  /** The instrument. */
  readonly with?: string;
  /** Sizes that belong to the instrument: balls, rollers, blocks, a travel. */
  readonly sizes?: readonly Amount[];
  /** What it must be, and what passes; a limit that is left out is not judged. */
  readonly must: Amount;
  /** How well it is measured, where that is not what passes. */
  readonly doubt?: Amount;
  /** On which side of the work's axis it lies, or the tool that left it. */
  readonly way?: Way;
}

/** For each `per` that a measured thing is off, one way, another thing counts as off by so much. */
export interface Count {
  /** What is done. */
  readonly do: 'count';
  /** What was measured, as a {@link Measure} calls it. */
  readonly measured: string;
  /** Which way it is off. */
  readonly off: 'too-small' | 'too-large';
  /** For each so much. */
  readonly per: Amount;
  /** What counts as off. */
  readonly as: string;
  /** Which way. */
  readonly is: 'too-small' | 'too-large';
  /** By how much. */
  readonly by: Amount;
}

/** Pushes a part with marking blue into a gauge: what marks at one end only say of the angle. */
export interface Blue {
  /** What is done. */
  readonly do: 'blue';
  /** The gauge. */
  readonly with: 'ring-gauge' | 'plug-gauge';
  /** Marks at the large end only. */
  readonly atLargeEnd: 'steep' | 'flat';
  /** Marks at the small end only. */
  readonly atSmallEnd: 'steep' | 'flat';
}

/** For each `per` that a measured thing is off, one way, changes a control; off the other way, as much the other way. */
export interface Correct {
  /** What is done. */
  readonly do: 'correct';
  /** What was measured, as a {@link Measure} calls it. */
  readonly measured: string;
  /** Which way it is off. */
  readonly off: 'too-small' | 'too-large';
  /** For each so much. */
  readonly per: Amount;
  /** The control. */
  readonly control: Control;
  /** By how much. */
  readonly by: Amount;
  /** Which way. */
  readonly way: Way;
  /** The same on its own scale. */
  readonly reading?: Amount;
  /** What an indicator shows of it, and over which travel. */
  readonly needle?: Amount;
  /** Length over which it is measured. */
  readonly over?: Amount;
}

/** One thing that a person does. */
export type Action =
  | Secure
  | Provide
  | Turn
  | Zero
  | SetReading
  | Move
  | Withdraw
  | Clear
  | Feed
  | Follow
  | Touch
  | Indicate
  | Measure
  | Reckon
  | MarkPlace
  | Lay
  | Stop
  | Count
  | Blue
  | Correct
  | Repeat;

/** Whether a value of a sentence is an action. */
export function isAction(value: unknown): value is Action {
  return typeof value === 'object' && value !== null && 'do' in value;
}
