/** The one routine that is used; the package brings no types of its own. */
declare module 'd3-array' {
  /** About `count` round values from start to stop. */
  export function ticks(start: number, stop: number, count: number): number[];
}
