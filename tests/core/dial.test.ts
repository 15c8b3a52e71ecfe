import fc from 'fast-check';
import type { Dial } from 'generatrix';
import { GeneratrixError } from 'generatrix';
import { describe, expect, it } from 'vitest';
import { angleScale, dial, setOnAngleScale, setOnDial } from '../../src/core/dial.js';
import { readValue } from '../../src/core/read.js';

function refusal(call: () => unknown): string {
  try {
    call();
  } catch (error) {
    if (error instanceof GeneratrixError) return `${error.code} ${error.parameter}: ${error.allowed.phrase}`;
    throw error;
  }
  return 'accepted';
}

describe('dial', () => {
  it('reads the radius or the diameter', () => {
    expect(setOnDial(1.25, { reads: 'radius' }, 'dial').reading).toBe(1.25);
    expect(setOnDial(1.25, { reads: 'diameter' }, 'dial')).toEqual({
      reading: 2.5,
      settableReading: 2.5,
      settableValue: 1.25,
      roundingError: 0,
    });
  });

  it('counts graduations in decimals: 3 steps of 0.1 read 0.3', () => {
    expect(3 * 0.1).not.toBe(0.3);
    expect(setOnDial(0.31, { reads: 'radius', step: 0.1 }, 'dial').settableReading).toBe(0.3);
    expect(setOnDial(-0.31, { reads: 'radius', step: 0.1 }, 'dial').settableReading).toBe(-0.3);
    expect(setOnDial(0.155, { reads: 'diameter', step: 0.1 }, 'dial').settableValue).toBe(0.15);
    expect(setOnDial(0.2, { reads: 'radius', step: 1 / 64 }, 'dial').settableReading).toBe(0.203125);
  });

  it('gives every graduation the digits that its decimal form has', () => {
    fc.assert(
      fc.property(fc.integer({ min: -1e6, max: 1e6 }), fc.integer({ min: 0, max: 6 }), (count, places) => {
        const wanted = Number(`${count}e-${places}`) + 0;
        const dial: Dial = { reads: 'radius', step: Number(`1e-${places}`) };
        expect(setOnDial(wanted * (1 + 1e-10), dial, 'dial').settableReading).toBe(wanted);
      }),
    );
  });

  it('is never more than half a step off, and never leaves its range', () => {
    const span = fc.double({ min: -100, max: 100, noNaN: true });
    fc.assert(
      fc.property(span, fc.double({ min: 0.001, max: 10, noNaN: true }), (value, step) => {
        const free = setOnDial(value, { reads: 'radius', step }, 'dial');
        // Half a step, and the rounding of two doubles near 100.
        expect(Math.abs(free.roundingError)).toBeLessThanOrEqual(step / 2 + 3e-14);
        const least = setOnDial(value, { reads: 'radius', step, from: value }, 'dial').settableReading;
        const most = setOnDial(value, { reads: 'radius', step, to: value }, 'dial').settableReading;
        expect(least).toBeGreaterThanOrEqual(value);
        expect(most).toBeLessThanOrEqual(value);
        // At most one step apart: a nearer graduation was available otherwise.
        expect(least - most).toBeLessThanOrEqual(step + 3e-14);
      }),
    );
  });

  it('has no negative zero', () => {
    expect(setOnDial(-0.001, { reads: 'radius', step: 0.1 }, 'dial').settableReading).toBe(0);
    expect(setOnDial(-0, { reads: 'diameter' }, 'dial').reading).toBe(0);
  });

  it('takes an end of the range that was computed in floating point', () => {
    expect(setOnDial(0.1 + 0.2, { reads: 'radius', step: 0.1, to: 0.3 }, 'dial').settableReading).toBe(0.3);
  });

  it('survives the largest and the least doubles', () => {
    expect(setOnDial(1e300, { reads: 'radius', step: 5e-324 }, 'dial').settableReading).toBe(1e300);
  });
});

describe('angle scale', () => {
  it('reads from the axis or from across it', () => {
    expect(setOnAngleScale(12, { reads: 'from-axis' }, 'scale').readingDeg).toBe(12);
    expect(setOnAngleScale(12.3, { reads: 'from-across', stepDeg: 0.5 }, 'scale')).toEqual({
      readingDeg: 77.7,
      settableReadingDeg: 77.5,
      settableAngleDeg: 12.5,
      roundingErrorDeg: 12.5 - 12.3,
    });
  });

  it('gives a small angle back unchanged where any angle can be set', () => {
    expect(setOnAngleScale(1e-9, { reads: 'from-across' }, 'scale').settableAngleDeg).toBe(1e-9);
  });

  it('counts fives of minutes', () => {
    expect(setOnAngleScale(30.01, { reads: 'from-axis', stepDeg: 1 / 12 }, 'scale').settableReadingDeg).toBe(30);
  });
});

it.each<[string, () => unknown]>([
  ['wrong-kind d: must be an object with reads, step, from, to', () => readValue(1, dial, 'd')],
  ['missing-option d.reads: must be given', () => readValue({}, dial, 'd')],
  ['out-of-range d.reads: must be one of radius, diameter', () => readValue({ reads: 'x' }, dial, 'd')],
  [
    'unknown-option d.steps: is not one of reads, step, from, to',
    () => readValue({ reads: 'radius', steps: 1 }, dial, 'd'),
  ],
  ['out-of-range d.step: must be a number, greater than 0', () => readValue({ reads: 'radius', step: 0 }, dial, 'd')],
  ['not-finite d.to: must be a finite number', () => readValue({ reads: 'radius', to: Infinity }, dial, 'd')],
  ['contradiction d.to: must be at least from, 2', () => readValue({ reads: 'radius', from: 2, to: 1 }, dial, 'd')],
  [
    'contradiction d.step: must have a graduation from 0.3 to 0.4',
    () => readValue({ reads: 'radius', step: 1, from: 0.3, to: 0.4 }, dial, 'd'),
  ],
  [
    'out-of-range s.reads: must be one of from-axis, from-across',
    () => readValue({ reads: 'radius' }, angleScale, 's'),
  ],
  [
    'contradiction s.toDeg: must be at least fromDeg, 2',
    () => readValue({ reads: 'from-axis', fromDeg: 2, toDeg: 1 }, angleScale, 's'),
  ],
  [
    'beyond-machine dial: must read from -1 to 1; nearest possible 1',
    () => setOnDial(0.6, readValue({ reads: 'diameter', from: -1, to: 1 }, dial, 'dial'), 'dial'),
  ],
  [
    'beyond-machine dial: must read at least 1; nearest possible 1',
    () => setOnDial(0.6, { reads: 'radius', from: 1 }, 'dial'),
  ],
  [
    'beyond-machine scale: must read at most 45; nearest possible 45',
    () => setOnAngleScale(30, { reads: 'from-across', toDeg: 45 }, 'scale'),
  ],
])('%s', (wanted, call) => {
  expect(refusal(call)).toBe(wanted);
});
