/**
 * Sheets of tapers with one number, direction, place, order or action wrong, obeyed. What then still does what it
 * should is not needed, or said twice: each such class stands here with its reason.
 */
import { expect, it } from 'vitest';
import { runs } from '../oracle/seed.js';
import { survivors } from './survivors.js';
import { taperKinds } from './taper-kinds.js';

const EXPLAINED: readonly (readonly [RegExp, string])[] = [
  [/^(ends|hold-work|tool-height|drill|lock-carriage|free-cross-feed)\/.* after /, 'made ready in any order'],
  [/(clamp|ease|take-out|hold|touch)-\S+ after /, 'free or fast by the time it matters, whichever comes first'],
  [
    /^(zero|level-head|restore|turn-blank|set-over-again|follow-up|back-to-zero)\/(unclamp|clamp|ease)-\S+ dropped/,
    'clamped or freed by another action too, or nothing is cut any more',
  ],
  [/^set-over\/(ease|unclamp)-\S+ dropped/, 'an unclamped barrel already has play; the head was freed to be levelled'],
  [/^(difference|ball-depths|on-sine-bar|blue)\/.* after (blue|correct)/, 'two proofs of one trial'],
  [/^blue\/blue dropped/, 'blue says again what was measured'],
  [/^blue\/blue\/at(Large|Small)End swapped/, 'of the two ends only one marks'],
  [/(within|before) x 1.05/, 'a limit or a run-in, a twentieth wider'],
  [/^touch-off\/touch/, 'the cut goes on until the work measures right, wherever the tool was touched off'],
  [
    /^(again\/repeat|\S+\/correct-\S+ after (repeat|correct))/,
    'a repeated trial proves; the finishing cut has the corrected setting anyhow',
  ],
  [
    /^final-check\//,
    'each of three readings follows from the others; without a tolerance of its own the difference is only read',
  ],
  [/correct-\S+\/(needle|over|reading) x 2/, 'the same change, told for another instrument'],
  [/^\S+\/correct-cross-slide/, 'where the tool then stands the next touching off finds'],
  [
    /^(angle|bar|set-over|edge-angle)\/set-\S+( dropped|\/reading x 1.05|\/way reversed)/,
    'the needle that follows mends the setting, to either side',
  ],
  [/^(indicator|edge-indicator)\/\S+ after (move|stop)/, 'a stop and a trial by hand do not ask for the angle'],
  [/^balls\//, 'a length that is proved before it is held, in any order'],
  [/^clear-travel\//, 'a trial by hand: shows what is in the way, changes nothing'],
  [
    /^ends\/mark-lower-mark\/at x 1.05/,
    'the marks a little nearer to each other: the difference is then off by less than passes',
  ],
  [/^ends\/mark-large-end/, 'the stop of a bore is at its small end; where the large end lies follows from the size'],
  [/^drill\//, 'a hole smaller than the bore disappears in it'],
  [
    /^(zero|level-head)\/(indicate|zero)/,
    'the blank was just turned in line: what is moved stands where it should, and the needle along it mends the rest',
  ],
  [
    /^(zero|restore|back-to-zero)\/(indicate|set|zero|take-out)/,
    'brought back by its reading and by the needle: each mends the other',
  ],
  [
    /^turn-blank\/(feed-carriage\/way reversed|correct-tailstock\/per x 2)/,
    'a blank is cylindrical from either side, and is turned until it is',
  ],
  [/^free-cross-feed\/set-top-slide\/reading/, 'a top slide that is not quite square still gives depth'],
  [/^rough\/feed-\S+\/until x 1.05/, 'a trial that leaves more shows the same angle'],
  [/^on-sine-bar\/(measure-fall|count)\S*.* x /, 'a short side that falls: what is told for it converges'],
  [/^(edge-place|edge-indicator)\/.* after /, 'the edge may be placed before it is locked or proved'],
];

const SAMPLE = [
  'top-slide from-axis outside large-end-at-headstock shallow mm',
  'top-slide no-scale inside small-end-at-headstock shallow mm',
  'guide-bar half-angle outside large-end-at-headstock shallow mm',
  'set-over radius outside small-end-at-headstock shallow mm',
  'ball-centres diameter outside large-end-at-headstock shallow mm',
  'form-tool outside large-end-at-headstock steep mm',
];

it.each(SAMPLE.filter((_, i) => i % runs(1, 2) === 0))('what survives on the sheet of %s is explained', (name) => {
  const kind = taperKinds().find((one) => one.name === name);
  if (!kind) throw new Error(`no kind ${name}`);
  const { all, left, shops } = survivors(kind);
  expect(left.filter((what) => !EXPLAINED.some(([class_]) => class_.test(what)))).toEqual([]);
  // All shops tell good sheets from bad ones, and more than half of what can be spoiled shows.
  expect(shops).toBe(7);
  expect(left.length).toBeLessThan(all / 2);
});
