/**
 * The set-up as it stands on the machine: coordinates in the drawings of plans against directions and sizes worked out
 * here from the job alone, in the frames of docs/conventions.md. Page: x to the right, y downwards.
 */
import { planFigure, planJob } from 'generatrix';
import { describe, expect, it } from 'vitest';
import { directionOf, elements, lengthOf, parsed, part, parts, points, value, words } from './parsed.js';
import { PRINT_JOBS, type PrintJob } from './print-jobs.js';

/** Coordinates are written to hundredths of a pixel. */
const PX = 0.1;

function drawing({ job, method: wanted }: PrintJob, width = 800): ReturnType<typeof parsed> {
  const plan = planJob(job, { trials: 1000 });
  const method = plan.methods.findIndex((one) => one.method === wanted && one.reaches);
  return parsed(planFigure({ plan, method, width }));
}

const close = (drawn: number, wanted: number, within = PX): void =>
  expect(Math.abs(drawn - wanted), `${drawn} for ${wanted}`).toBeLessThan(within);

const tapers = PRINT_JOBS.filter(({ job }) => job.part.kind === 'taper');
const sweeps = PRINT_JOBS.filter(({ method }) => method === 'tilted-sweep');

/** Radii of the taper at its ends next to the headstock and next to the tailstock. */
function radii({ job: { part: taper } }: PrintJob): readonly [head: number, tail: number, halfTan: number] {
  if (taper.kind !== 'taper') throw new Error('no taper');
  const rate =
    'perFoot' in taper.taper
      ? (taper.taper.perFoot as number) / 12
      : 'oneIn' in taper.taper
        ? 1 / (taper.taper.oneIn as number)
        : 2 * Math.tan((((taper.taper as { includedAngleDeg: number }).includedAngleDeg / 2) * Math.PI) / 180);
  const [large, small] = [taper.largeDiameter / 2, taper.largeDiameter / 2 - (taper.length * rate) / 2];
  return taper.headstockEnd === 'large' ? [large, small, rate / 2] : [small, large, rate / 2];
}

describe.each(tapers)('$name', (one) => {
  const figure = drawing(one);
  const [head, tail, halfTan] = radii(one);
  const said = words(figure).join(' ');
  const factor = Number(said.match(/drawn (\d+) times/)?.[1] ?? 1);
  const setOver = one.method === 'set-over' || one.method === 'ball-centres';

  it('leads the tool along the wall on the operator’s side', () => {
    // The wall before the operator, outside or in a bore, lies a radius below the axis on the page: where the radius
    // grows towards the tailstock, to the right, it falls.
    const wall = (Math.atan(factor * halfTan * Math.sign(head - tail)) * 180) / Math.PI;
    // Work set over is itself turned until that wall runs along the bed.
    close(directionOf(part(figure, 'tool-path')), setOver ? 0 : wall, 0.05);
    const guide = { 'top-slide': 'slide-edge', 'guide-bar': 'bar-line', 'form-tool': 'edge' }[one.method as string];
    if (guide) close(directionOf(part(figure, guide)), wall, 0.05);
  });

  const onlySetOver = setOver ? it : undefined;
  onlySetOver?.('sets the tailstock over to the right side', () => {
    // The wall before the operator is turned to run along the bed: where the radius grows towards the tailstock, the
    // tailstock goes away from the operator, up on the page.
    const pivots = ['headstock', 'tailstock'].map((end) => value(part(figure, `pivot-${end}`), 'cy'));
    expect(Math.sign((pivots[1] as number) - (pivots[0] as number))).toBe(tail > head ? -1 : 1);
    expect(said).toContain(tail > head ? 'set over away from the operator' : 'set over towards the operator');
  });

  it('has the end at the headstock on the left', () => {
    const of = (end: 'large' | 'small'): number => value(part(figure, `${end}-diameter`), 'x1');
    expect(Math.sign(of('large') - of('small'))).toBe(head > tail ? -1 : 1);
  });

  it('draws shoulders, tool post and slide in their true size', () => {
    const { part: taper, lathes = [] } = one.job;
    if (taper.kind !== 'taper') return;
    const scale = lengthOf(part(figure, 'length')) / taper.length;
    const lathe = lathes[0];
    const post = parts(figure, 'tool-post');
    const stands = taper.side === 'outside' && one.method !== 'form-tool';
    expect(post).toHaveLength(stands ? 1 : 0);
    if (post[0] && lathe?.toolPost) {
      const tip = points(part(figure, 'tool'))[0] as readonly [number, number];
      close(value(post[0], 'width'), 2 * lathe.toolPost.halfWidth * scale);
      close(value(post[0], 'y') - tip[1], lathe.toolPost.toolReach * scale);
      close(value(post[0], 'x') + value(post[0], 'width') / 2, tip[0]);
    }
    if (one.method === 'top-slide' && stands && lathe?.topSlide?.nose) {
      const { ahead, back } = lathe.topSlide.nose;
      const edge = part(figure, 'slide-edge');
      close(lengthOf(edge), 2 * ahead * scale);
      // Distance of the tip from the line of the slide's edge.
      const tip = points(part(figure, 'tool'))[0] as readonly [number, number];
      const [dx, dy] = [value(edge, 'x2') - value(edge, 'x1'), value(edge, 'y2') - value(edge, 'y1')];
      const off = (dx * (tip[1] - value(edge, 'y1')) - dy * (tip[0] - value(edge, 'x1'))) / Math.hypot(dx, dy);
      close(Math.abs(off), back * scale);
    }
    for (const { at, diameter, gap } of taper.shoulders ?? []) {
      const end = part(figure, `${at}-diameter`);
      const axis = part(figure, 'work-axis');
      const turn = (directionOf(axis) * Math.PI) / 180;
      // In the work's own frame: along its axis, and off it.
      const own = points(part(figure, 'work')).map(([x, y]) => {
        const [u, v] = [x - value(axis, 'x1'), y - value(axis, 'y1')];
        return [u * Math.cos(turn) - v * Math.sin(turn), u * Math.sin(turn) + v * Math.cos(turn)] as const;
      });
      const [ex, ey] = [value(end, 'x1') + value(end, 'x2'), value(end, 'y1') + value(end, 'y2')];
      const taperEnd = (ex / 2 - value(axis, 'x1')) * Math.cos(turn) - (ey / 2 - value(axis, 'y1')) * Math.sin(turn);
      const away = (at === 'large') === head > tail ? -1 : 1;
      const face = taperEnd + away * gap * scale;
      const corners = own.filter(
        ([u, v]) => Math.abs(u - face) < 2 * PX && Math.abs(Math.abs(v) - (diameter / 2) * scale) < 2 * PX,
      );
      expect(corners).toHaveLength(2);
    }
  });
});

describe.each(sweeps)('$name', (one) => {
  const figure = drawing(one);
  const table = one.job.mills?.[0]?.table;
  const plan = planJob(one.job, { trials: 1000 });
  const method = plan.methods.find((tried) => tried.method === 'tilted-sweep');
  const target = one.job.part.kind === 'sphere' ? one.job.part.target : undefined;
  const socket = target?.part === 'socket';

  it('has the work’s axis level or upright, the free end on the right or up', () => {
    const axis = directionOf(part(figure, 'work-axis'));
    close(((axis % 180) + 180) % 180, table === 'flat' ? 90 : 0, 0.05);
    // The body is held on the other side: its outline ends far from the free end.
    const outline = points(part(figure, 'work'));
    const along = ([x, y]: readonly [number, number]): number => (table === 'flat' ? -y : x);
    const tips = parts(figure, 'tip').map((tip) => points(tip)[1] as readonly [number, number]);
    // A ball's pole is its free end; a socket's opening is, and its sweep's other place reaches up to it.
    const pole = along(tips[0] as readonly [number, number]);
    const other = along(tips[1] as readonly [number, number]);
    expect(Math.sign(pole - other)).toBe(socket ? -1 : 1);
    const middle = (Math.max(...outline.map(along)) + Math.min(...outline.map(along))) / 2;
    if (!socket) expect(pole).toBeGreaterThan(middle);
  });

  it('leans the head as its scale is set', () => {
    // docs/conventions.md: positive with the upper end to the right, from upright.
    const { tilt } = (method as { settings: { tilt: { settableReadingDeg: number } } }).settings;
    close(directionOf(part(figure, 'spindle-axis')), 90 - tilt.settableReadingDeg, 0.05);
    const told = words(figure).join(' ');
    expect(told).toContain(`upper end to the ${tilt.settableReadingDeg < 0 ? 'left' : 'right'}`);
    // By hand, to the graduation of half a degree: a ball on a stem from its pole to the stem, half of that angle.
    if (target?.part === 'ball-on-stem') {
      const end = 180 - (Math.asin(target.stemDiameter / (target.diameter as number)) * 180) / Math.PI;
      close(tilt.settableReadingDeg, table === 'flat' ? end / 2 : 90 - end / 2, 0.25);
    }
  });

  it('draws the boring head in its true size, the bar from the tip straight to it', () => {
    const head = one.job.mills?.[0]?.boringHead;
    const sweep = part(figure, 'sweep');
    const settings = (method as { settings: { settable: { sweep: { sweepRadius: number } } } }).settings;
    const scale = lengthOf(sweep) / (2 * settings.settable.sweep.sweepRadius);
    const side = (points_: readonly (readonly [number, number])[], a: number, b: number): number =>
      Math.hypot(
        (points_[a]?.[0] ?? Number.NaN) - (points_[b]?.[0] ?? Number.NaN),
        (points_[a]?.[1] ?? Number.NaN) - (points_[b]?.[1] ?? Number.NaN),
      );
    const body = points(parts(figure, 'head')[1] as never);
    close(side(body, 0, 1), 2 * (head?.bodyRadius ?? Number.NaN) * scale, 2 * PX);
    // From the tip, the first corner of the bar, along its straight side, the last one.
    const bar = points(part(figure, 'bar'));
    close(side(bar, 0, 3), (head?.toolReach ?? Number.NaN) * scale, 2 * PX);
    const [tip] = parts(figure, 'tip').map((one_) => points(one_));
    expect(
      Math.hypot((bar[0]?.[0] ?? 0) - (tip?.[0]?.[0] ?? 9), (bar[0]?.[1] ?? 0) - (tip?.[0]?.[1] ?? 9) - 5),
    ).toBeLessThan(PX);
  });
});

describe.each(PRINT_JOBS)('$name', (one) => {
  it.each([360, 800])('carries its frame at %d px, axes and head are named', (width) => {
    const figure = drawing(one, width);
    const lathe = tapers.includes(one) || one.method === 'steps' || one.method === 'swivel-tool';
    const told = words(figure);
    for (const name of lathe ? ['headstock', 'tailstock', 'operator'] : ['left', 'right', 'up']) {
      expect(told).toContain(name);
    }
    close(Math.abs(directionOf(part(figure, 'frame-left'))), 180);
    close(directionOf(part(figure, 'frame-right')), 0);
    close(directionOf(part(figure, 'frame-across')), lathe ? -90 : 90);
    for (const name of one.method === 'tilted-sweep' ? ['work axis', 'spindle axis', 'boring head', 'tip'] : []) {
      expect(told).toContain(name);
    }
    expect(elements(figure).length).toBeGreaterThan(20);
  });
});
