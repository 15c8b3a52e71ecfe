/** What every figure takes: unit, heading, width, theme, decimals; and readers of what figures draw. */
import { choice, defaulted, type Fields, flag, number, optional, text, whole } from '../core/read.js';

export { part } from '../core/read.js';

/** What every figure takes. */
export interface FigureOptions {
  /** The unit of all lengths, as it shall be written: `mm`, `in`. */
  readonly unit: string;
  /** Heading; says what is drawn if left out. */
  readonly title?: string;
  /** Width in pixels, from 280 to 2000. Text keeps its size: 360 suits a phone, 800 a page. @defaultValue 480 */
  readonly width?: number;
  /** `auto` is the reader's own choice. Where a page allows no styles, figures are light. @defaultValue `auto` */
  readonly theme?: 'auto' | 'light' | 'dark';
  /**
   * Decimals of lengths, 0 to 9. Angles have one more; what a scale is set to has those of its graduations.
   * @defaultValue 3; 4 where the unit is `in`
   */
  readonly decimals?: number;
  /** The key tells only what stands as a tag in the drawing: for a sheet whose steps tell the rest. @defaultValue false */
  readonly brief?: boolean;
}

/** The keys of {@link FigureOptions} with defaults. */
export type Looks = 'width' | 'theme' | 'brief';

/** Greatest height of a drawing on a page of a width, pixels. */
export function tallest(width: number): number {
  return Math.min(380, Math.max(240, 0.75 * width));
}

/** Readers of {@link FigureOptions}, for every figure's own. */
export const FIGURE: Fields<FigureOptions, Looks> = {
  unit: text(12),
  title: optional(text()),
  width: defaulted(number({ min: 280, max: 2000 }), 480),
  theme: defaulted(choice('auto', 'light', 'dark'), 'auto'),
  decimals: optional(whole({ min: 0, max: 9 })),
  brief: defaulted(flag, false),
};
