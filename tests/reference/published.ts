/**
 * Published worked examples: inputs, the result as printed, and the source. `confidence` says whether
 * the source was seen or is quoted from memory; no original standard could be read, so values said to
 * come from one were seen in a secondary table or transcription. `sourceIsWrong` marks printed results
 * that are in error: they serve only to show that the library disagrees.
 */
import { readFileSync } from 'node:fs';

export interface PublishedExample {
  readonly id: string;
  readonly description: string;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly published: Readonly<Record<string, { readonly value: string; readonly unit: string }>>;
  readonly confidence: 'seen' | 'memory';
  readonly source: { readonly title: string; readonly section?: string };
  readonly sourceIsWrong?: true;
}

export const publishedExamples: readonly PublishedExample[] = JSON.parse(
  readFileSync(new URL('./published.json', import.meta.url), 'utf8'),
);

/** The example of this id; a test that names an unknown one fails. */
export function published(id: string): PublishedExample {
  const found = publishedExamples.find((example) => example.id === id);
  if (!found) throw new Error(`no published example ${id}`);
  return found;
}

/** Half a unit of the last printed digit: how far a rounded printed value may be from the truth. */
export function halfUnit(printed: string): number {
  const [mantissa = '', exponent = '0'] = printed.toLowerCase().split('e');
  return 0.5 * 10 ** (Number(exponent) - (mantissa.split('.')[1]?.length ?? 0));
}
