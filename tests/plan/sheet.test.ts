import { planCautions, planJob, planSteps, shopSheet } from 'generatrix';
import { parse } from 'parse5';
import { describe, expect, it } from 'vitest';
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
const svg = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><title>t</title><path d="M0 0h9"/></svg>';

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
    const sheet = shopSheet({ plan, format, figures: [{ title: 'Set-over in plan', svg }] });
    const plainText = format === 'html' ? text(parse(sheet) as Node) : sheet;
    for (const step of planSteps({ plan })) expect(plainText).toContain(step.text);
    for (const { message } of planCautions({ plan })) expect(plainText).toContain(message);
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
        'Cautions',
        'Order of work',
        'Expected error',
      ]);
      expect(all.find(({ nodeName }) => nodeName === 'html')?.attrs).toEqual([{ name: 'lang', value: 'en' }]);
    }
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

  it.each([
    ['<svg><script>1</script></svg>'],
    ['<svg onload="x"></svg>'],
    ['<svg><image href="x"/></svg>'],
    ['<svg></svg><svg></svg>'],
    ['<p></p>'],
    ['<svg><style>@import "x"</style></svg>'],
  ])('refuses the figure %s', (harmful) => {
    const call = () => shopSheet({ plan, format: 'html', figures: [{ title: 't', svg: harmful }] });
    expect(call).toThrow(expect.objectContaining({ code: 'unreadable', parameter: 'figures[0].svg' }));
  });
});
