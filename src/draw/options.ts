/** What every figure takes: unit, heading, width, theme, decimals. */
import { choice, number, text, whole } from '../core/checks.js';
import { type Writer, writer } from './text.js';

/** What every figure takes. */
export interface FigureOptions {
  /** The unit of all lengths, as it shall be written: `mm`, `in`. */
  readonly unit: string;
  /** Heading; says what is drawn if left out. */
  readonly title?: string;
  /** Width in pixels, from 280 to 2000; 480 if left out. Text keeps its size: 360 suits a phone, 800 a page. */
  readonly width?: number;
  /** `auto`, the reader's own choice, if left out. */
  readonly theme?: 'auto' | 'light' | 'dark';
  /** Decimals of lengths, 0 to 9; 3 if left out. Angles have one more. */
  readonly decimals?: number;
}

/** The keys of {@link FigureOptions} that may be left out. */
export const COMMON = ['title', 'width', 'theme', 'decimals'] as const;

/** Checked {@link FigureOptions}. */
export interface Common {
  readonly title: string | undefined;
  readonly width: number;
  readonly theme: 'auto' | 'light' | 'dark';
  readonly write: Writer;
  readonly unit: string;
}

/** Checks what every figure takes; the keys were checked before. */
export function readCommon(given: Readonly<Record<string, unknown>>): Common {
  const unit = text(given['unit'], 'unit', 12);
  return {
    unit,
    title: given['title'] === undefined ? undefined : text(given['title'], 'title'),
    width: number(given['width'] ?? 480, 'width', { min: 280, max: 2000 }),
    theme: choice(given['theme'] ?? 'auto', 'theme', ['auto', 'light', 'dark']),
    write: writer(unit, whole(given['decimals'] ?? 3, 'decimals', { min: 0, max: 9 })),
  };
}
