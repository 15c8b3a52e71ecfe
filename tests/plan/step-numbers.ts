/** Numbers of a step by name: out of its actions, or one that its text speaks of beside them. */
import type { Action, WorkStep } from 'generatrix';

type Of<K extends Action['do']> = Extract<Action, { readonly do: K }>;

/** The n-th action of a kind. */
export function actionOf<K extends Action['do']>(step: WorkStep | undefined, kind: K, n = 0): Of<K> | undefined {
  return (step?.actions ?? []).filter((one): one is Of<K> => one.do === kind)[n];
}

/** A number of a step; NaN if it has none of that name. */
export function numberOf(step: WorkStep | undefined, name: string): number {
  const at = <K extends Action['do']>(kind: K, n = 0): Of<K> | undefined => actionOf(step, kind, n);
  const needle = at('indicate')?.needle;
  const marked = (what: string): number | undefined =>
    step?.actions.flatMap((one) => (one.do === 'mark' && one.what === what ? [one.at.value] : []))[0];
  const found: Readonly<Record<string, number | undefined>> = {
    largeAt: marked('large-end'),
    smallAt: marked('small-end'),
    markAt: marked('lower-mark'),
    farMarkAt: marked('upper-mark'),
    travel: at('indicate')?.travel.value ?? at('correct')?.over?.value,
    needle: needle?.value,
    needleFrom: needle && needle.value - (needle.limit ?? 0),
    needleTo: needle && needle.value + (needle.limit ?? 0),
    readingDeg: at('set')?.reading.value,
    exactReadingDeg: at('set')?.exact,
    reading: at('set')?.reading.value,
    limit: at('set')?.reading.limit ?? at('measure')?.must.limit,
    difference: at('measure')?.must.value,
    lowerLimit: at('measure', 1)?.must.limit,
    differenceLimit: at('measure', 2)?.must.limit,
    markDiameter: at('feed')?.until?.value,
    per: at('correct')?.per.value,
    indicator: at('correct')?.needle?.value,
    changeReading: at('correct')?.reading?.value,
    changeOffset: at('correct')?.by.value,
    tailstockAdvance: at('move')?.by.value,
  };
  return step?.values[name] ?? found[name] ?? Number.NaN;
}
