import fc from 'fast-check';
import { dialFigure, planCautions, planJob, planSteps, shopSheet } from 'generatrix';
import { marked } from 'marked';
import { parse } from 'parse5';
import { describe, expect, it } from 'vitest';
import { runs } from '../oracle/seed.js';
import { BALL, SOCKET, sphereJob } from './sphere-jobs.js';
import { taperJob } from './taper-jobs.js';

interface Node {
  readonly nodeName: string;
  readonly value?: string;
  readonly attrs?: readonly { readonly name: string; readonly value: string }[];
  readonly childNodes?: readonly Node[];
}

function nodes(node: Node): Node[] {
  return [node, ...(node.childNodes ?? []).flatMap(nodes)];
}

const text = (node: Node): string => node.value ?? (node.childNodes ?? []).map(text).join('');
const HOSTILE = `</title><script>alert(1)</script><img src=x onerror="alert('2')"> [a](javascript:b) \`c\` | *d*`;
const setting = { reading: 5.013, settableReading: 5, settableValue: 5, roundingError: -0.013 };
const drawn = (title: string): string => dialFigure({ setting, unit: 'mm', title });
const svg = drawn('A dial');

describe('cautions', () => {
  const codes = (job: Parameters<typeof planJob>[0], method: string): readonly string[] => {
    const plan = planJob(job, { trials: 2000 });
    const cautions = planCautions({ plan, method: plan.methods.findIndex((tried) => tried.method === method) });
    expect(new Set(cautions.map(({ code }) => code)).size).toBe(cautions.length);
    return cautions.map(({ code }) => code);
  };
  const general = ['authority', 'guards', 'try-by-hand', 'stopped-to-measure', 'swarf', 'work-pulls-out'];

  it.each([
    ['top-slide', ['slide-overhang', 'slide-clamp']],
    ['guide-bar', ['slide-clamp']],
    ['form-tool', ['wide-edge', 'slide-clamp']],
    ['set-over', ['driver-dog', 'tailstock-clamp', 'centre-heat']],
    ['ball-centres', ['driver-dog', 'tailstock-clamp', 'ball-heat', 'head-off-axis']],
  ])('by method: %s', (method, own) => {
    expect(codes(taperJob(), method)).toEqual([...general, ...own]);
  });

  it.each([
    ['tilted-sweep', ['head-off-balance', 'head-tilt-clamp', 'open-sweep', 'table-lock']],
    ['swivel-tool', ['swivel-swing']],
    ['steps', ['blending']],
    ['ball-cutter', ['head-tilt-clamp', 'table-lock', 'blending']],
  ])('by method: %s', (method, own) => {
    expect(codes(sphereJob(BALL), method)).toEqual([...general, ...own]);
  });

  it('by situation: inside, and beside a shoulder', () => {
    expect(codes(taperJob({ side: 'inside' }), 'top-slide')).toContain('inside');
    const job = taperJob({ shoulders: [{ at: 'large', diameter: 40, gap: 30 }] });
    const lathes = (job.lathes ?? []).map((lathe) => ({ ...lathe, toolPost: { halfWidth: 20, toolReach: 15 } }));
    expect(codes({ ...job, lathes }, 'set-over')).toContain('shoulder-near');
  });
});

describe('the sheet', () => {
  const plan = planJob(taperJob(), { trials: 2000 });

  it.each(['markdown', 'html'] as const)('holds steps, cautions, errors and machine as %s', (format) => {
    const method = plan.methods.findIndex((tried) => tried.method === 'top-slide');
    const sheet = shopSheet({ plan, method, format, figures: [{ title: 'Set-over in plan', svg }] });
    const plainText = text(
      parse(format === 'html' ? sheet : (marked.parse(sheet, { async: false }) as string)) as Node,
    );
    for (const step of planSteps({ plan, method })) expect(plainText).toContain(step.text);
    for (const { message } of planCautions({ plan, method })) expect(plainText).toContain(message);
    // What is set stands before everything else; each caution of the method beside its step, the general ones last.
    const [first = '', later = ''] = plainText.split('Order of work');
    expect(first.indexOf('Settings')).toBeLessThan(first.indexOf('outside taper'));
    expect(first).toContain('1.43');
    expect(first).toContain('0.600 in per foot, half angle 1.4321° or 1° 25.9 minutes');
    const [work = '', end = ''] = later.split('Expected error');
    const cautions = planCautions({ plan, method });
    for (const { message, beside } of cautions) expect(beside ? work : end).toContain(message);
    expect(cautions.filter(({ beside }) => beside)).toHaveLength(2);
    for (const part of ['bench lathe', 'Expected error', 'Small diameter', 'Set-over in plan']) {
      expect(plainText).toContain(part);
    }
  });

  it.each([
    ['ball', BALL],
    ['socket', SOCKET],
  ] as const)('is written for every method of a %s', (_name, target) => {
    const spheres = planJob(sphereJob(target), { trials: 2000 });
    for (const method of spheres.methods.keys()) {
      const all = nodes(parse(shopSheet({ plan: spheres, method, format: 'html' })) as Node);
      expect(all.filter(({ nodeName }) => nodeName === 'h1')).toHaveLength(1);
      expect(all.filter(({ nodeName }) => nodeName === 'h2').map(text)).toEqual([
        'Settings',
        'Order of work',
        'Expected error',
        'Cautions',
      ]);
      expect(all.find(({ nodeName }) => nodeName === 'html')?.attrs).toEqual([{ name: 'lang', value: 'en' }]);
    }
  });

  it('has a line for each reading, with what passes and what to do if it does not', () => {
    for (const method of plan.methods.keys()) {
      const steps = planSteps({ plan, method });
      const read = steps.filter(
        ({ kind, code, actions }) =>
          kind === 'measure' ||
          code === 'final-check' ||
          actions.some((one) => one.do === 'measure' || one.do === 'indicate'),
      );
      const all = nodes(parse(shopSheet({ plan, method, format: 'html' })) as Node);
      const list = all.find(({ nodeName }) => nodeName === 'ol') as Node;
      const items = (list.childNodes ?? []).filter(({ nodeName }) => nodeName === 'li');
      expect(items).toHaveLength(steps.length);
      steps.forEach((step, i) => {
        const blanks = nodes(items[i] as Node).filter(({ attrs }) =>
          attrs?.some(({ name, value }) => name === 'class' && value === 'blank'),
        );
        expect(blanks.length > 0, step.code).toBe(read.includes(step));
        for (const blank of blanks) {
          const goTo = /if not: (?:step (\d+)|set again|measure again|see there)/.exec(text(blank));
          expect(goTo, text(blank)).not.toBeNull();
          const next = steps[Number(goTo?.[1] ?? Number.NaN) - 1];
          if (goTo?.[1]) {
            expect(next?.kind === 'correct' || next?.actions.some((one) => one.do === 'correct')).toBe(true);
          }
        }
        // What passes lies within the limit of the action, in the digits that are told.
        for (const action of step.actions) {
          const must = action.do === 'measure' ? action.must : action.do === 'indicate' ? action.needle : undefined;
          if (!must?.limit) continue;
          if (must.value === 0) {
            const most = blanks.map((blank) => Number(/passes: at most ([\d.]+)/.exec(text(blank))?.[1]));
            const limit = must.limit;
            expect(most.some((told) => Math.abs(told - limit) <= 0.06 * limit)).toBe(true);
            continue;
          }
          const passes = blanks.map((blank) => /passes: (-?[\d.]+) to (-?[\d.]+)/.exec(text(blank)));
          const near = (told: string | undefined, wanted: number): boolean =>
            Math.abs(Number(told) - wanted) <= 0.06 * (must.limit as number);
          expect(
            passes.some(
              (found) =>
                near(found?.[1], must.value - (must.limit as number)) &&
                near(found?.[2], must.value + (must.limit as number)),
            ),
            step.code,
          ).toBe(true);
        }
      });
    }
  });

  it('lists what was assumed for this method, as people say it', () => {
    const job = taperJob();
    const bare = planJob(
      { title: job.title, unit: job.unit, part: job.part, lathes: job.lathes ?? [] },
      { trials: 2000 },
    );
    const method = bare.methods.findIndex((tried) => tried.method === 'set-over');
    const sheet = shopSheet({ plan: bare, method, format: 'markdown' }).replaceAll('\\', '');
    expect(sheet).toContain('- height of the tool ± 0.1 mm');
    expect(sheet).toContain('- distance of the pivots ± 0.5 mm');
    expect(sheet).not.toContain('form tool');
    expect(sheet).not.toMatch(/setting[.][a-z]|lathes[[]|100 ?%/);
  });

  it('lets no title or machine name mark up', () => {
    const job = taperJob();
    const lathes = (job.lathes ?? []).map((lathe) => ({ ...lathe, name: HOSTILE }));
    const hostile = planJob({ ...job, title: HOSTILE, lathes }, { trials: 2000 });
    const figures = [{ title: HOSTILE, svg }];
    const all = nodes(parse(shopSheet({ plan: hostile, format: 'html', figures })) as Node);
    const names = new Set(all.map(({ nodeName }) => nodeName));
    for (const name of ['script', 'img', 'link', 'iframe']) expect(names).not.toContain(name);
    const attributes = all.flatMap(({ attrs }) => attrs ?? []).map(({ name }) => name);
    expect(attributes.filter((name) => /^on|src|href/.test(name))).toEqual([]);
    expect(text(all.find(({ nodeName }) => nodeName === 'h1') as Node)).toBe(HOSTILE);
    const markdown = shopSheet({ plan: hostile, format: 'markdown', figures });
    expect(markdown).not.toMatch(/(?<!\\)<script|(?<!\\)<img|(?<!\\)\[a|(?<!\\)`c|(?<!\\)\*d/);
  });

  it('fetches nothing', () => {
    const html = shopSheet({ plan, format: 'html' });
    expect(html).not.toMatch(/https?:|url\(|@import|<link|<script/);
    expect(html).toContain("default-src 'none'");
  });

  const inside = (markup: string): string => svg.replace('<g ', `${markup}<g `);
  it.each([
    '<svg><script>1</script></svg>',
    '<svg onload="x"></svg>',
    '<svg><image href="x"/></svg>',
    '<svg></svg><svg></svg>',
    '<p></p>',
    '<svg><style>@import "x"</style></svg>',
    '<svg ><p><meta http-equiv="refresh" content="0;url=//example.org"></p></svg>',
    '<svg ><form action="//example.org"><input name="a"></form></svg>',
    inside('<p><meta http-equiv=refresh content=0></p>'),
    inside('<form action="//example.org"></form>'),
    inside('</svg ><h1>Forged</h1>'),
    inside('<style>.cautions{display:none}</style>'),
    svg.replace('</style>', '.cautions{display:none}</style>'),
    inside('<rect/onmouseover=alert(1)>'),
    inside('<rect x="1"onload="alert(1)"/>'),
    inside('<rect x="1" onload="alert(1)"/>'),
    inside('<rect class="gx-paper" fill="url(//example.org)"/>'),
    inside('<title><p>x</p></title>'),
    inside('<!-- x -->'),
    inside('<![CDATA[x]]>'),
    inside('<g>words</g>'),
    svg.replace('A dial', 'A dial\u0000'),
    svg.replace('A dial', 'A dial\uD800'),
    svg.replace('A dial', 'A dial\u202E'),
    svg.replace('A dial', 'A &lt;dial&gt;&nbsp;'),
    svg.replace('</svg>', ''),
    svg + svg,
    svg.replaceAll('"', "'"),
    svg.replace('<rect ', '<RECT '),
    svg.replace('<g ', '<g><g '),
    '',
  ])('refuses the figure %j', (harmful) => {
    const call = () => shopSheet({ plan, format: 'html', figures: [{ title: 't', svg: harmful }] });
    expect(call).toThrow(expect.objectContaining({ code: 'unreadable', parameter: 'figures[0].svg' }));
  });

  it('takes the own figures whatever their title says', () => {
    const pieces = [
      ' src=',
      ' onx=',
      '<script>',
      'url(x)',
      '@import',
      '"',
      "'",
      '&',
      '&amp;',
      '</svg>',
      '\u0000',
      '\u202E',
    ];
    const title = fc.oneof(
      fc.array(fc.constantFrom(...pieces), { maxLength: 8 }).map((parts) => parts.join('')),
      fc.string({ unit: 'binary', maxLength: 90 }),
    );
    fc.assert(
      fc.property(title, (said) => {
        const figure = drawn(said);
        const html = shopSheet({ plan, format: 'html', figures: [{ title: said, svg: figure }] });
        expect(html).toContain(figure.trim());
        // Characters that HTML does not allow, and those that turn the direction of writing (Unicode's Bidi_Control).
        expect(html).not.toMatch(/[^\P{Cc}\n]|\p{Cs}|\p{Bidi_Control}|[\uFFFE\uFFFF]/u);
        const all = nodes(parse(html) as Node);
        expect(all.filter(({ nodeName }) => ['script', 'img', 'meta'].includes(nodeName))).toHaveLength(3);
      }),
      { numRuns: runs(200, 50) },
    );
  });

  it.each(['https://example.org/a', 'www.example.org', 'example.org', 'a@example.org', 'mailto:a@example.org'])(
    'makes no link of %s in a title',
    (address) => {
      const titled = planJob({ ...taperJob(), title: `see ${address}` }, { trials: 2000 });
      const markdown = shopSheet({ plan: titled, format: 'markdown', figures: [{ title: address, svg }] });
      const html = marked.parse(markdown, { async: false }) as string;
      expect(html).not.toContain('<a ');
      expect(html.replaceAll('\u2060', '')).toContain(`<h1>see ${address}</h1>`);
      // Readers that look for addresses after escapes are gone find none either.
      expect(html).not.toMatch(/:\/\/|www\.|@example/);
    },
  );
});
