// Packs the library, installs the tarball in an empty project and uses it from ESM, CommonJS and
// TypeScript, as a user would.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

const run = (command, args, cwd) => {
  try {
    return execFileSync(command, args, { cwd, encoding: 'utf8', stdio: ['ignore', 'pipe', 'inherit'] });
  } catch (error) {
    process.stderr.write(String(error.stdout ?? ''));
    throw error;
  }
};
const pkg = JSON.parse(readFileSync('package.json', 'utf8'));
const dir = mkdtempSync(join(tmpdir(), 'pack-smoke-'));
try {
  const packed = JSON.parse(run('npm', ['pack', '--json', '--ignore-scripts', '--pack-destination', dir]));
  const [info] = Array.isArray(packed) ? packed : Object.values(packed);
  const wanted =
    /^(package\.json|README\.md|LICENSE|CHANGELOG\.md|docs\/(third-party-notices\.md|job\.schema\.json)|dist\/[^/]+\.(js|cjs|d\.ts|d\.cts))$/;
  const stray = info.files.map((file) => file.path).filter((path) => !wanted.test(path));
  if (stray.length > 0) throw new Error(`files that users do not need: ${stray}`);
  console.log(`${info.filename}: ${info.files.length} files, ${info.size} B packed, ${info.unpackedSize} B unpacked`);

  writeFileSync(join(dir, 'package.json'), JSON.stringify({ name: 'smoke', private: true, version: '1.0.0' }));
  run('npm', ['install', '--no-audit', '--no-fund', '--prefer-offline', join(dir, info.filename)], dir);
  const paths = Object.keys(pkg.exports)
    .filter((key) => !key.endsWith('.json'))
    .map((key) => pkg.name + key.slice(1));
  const id = (path) => path.replace(/\W/g, '_');
  const imports = paths.map((path) => `import * as ${id(path)} from '${path}';`).join('\n');
  const requires = paths.map((path) => `const ${id(path)} = require('${path}');`).join('\n');

  // The same job from both module systems: an answer, a refusal, and one error class across rooms.
  const job = `
const answer = generatrix.convertTaper({ perFoot: 0.6 }, 'halfAngleDeg');
let refusal;
try { generatrix_taper.convertTaper({ perFoot: -1 }, 'rate'); } catch (error) { refusal = error; }
if (!(refusal instanceof generatrix.GeneratrixError) || refusal.code !== 'out-of-range') throw new Error('no proper refusal');
const names = [${paths.map(id)}].map((room) => Object.keys(room).filter((key) => key !== 'default').sort().join());
console.log(JSON.stringify([answer, names]));
`;
  writeFileSync(join(dir, 'use.mjs'), imports + job);
  writeFileSync(join(dir, 'use.cjs'), requires + job);
  const esm = run(process.execPath, ['use.mjs'], dir);
  const cjs = run(process.execPath, ['use.cjs'], dir);
  if (esm !== cjs) throw new Error(`ESM and CommonJS differ:\n${esm}${cjs}`);
  console.log(`ESM and CommonJS agree: ${JSON.parse(esm)[0]}`);

  const use = `${imports}\nexport const answer: number = generatrix.convertTaper({ perFoot: 0.6 }, 'halfAngleDeg');\nexport const all = [${paths.map(id)}];\n`;
  for (const file of ['use.mts', 'use.cts', 'use.ts']) writeFileSync(join(dir, file), use);
  const tsc = resolve('node_modules/typescript/bin/tsc');
  const base = [tsc, '--noEmit', '--strict', '--skipLibCheck', 'false', '--target', 'es2022', '--lib', 'es2022,dom'];
  const node = process.execPath;
  run(node, [...base, '--module', 'node16', '--moduleResolution', 'node16', 'use.mts', 'use.cts'], dir);
  run(node, [...base, '--module', 'nodenext', '--moduleResolution', 'nodenext', 'use.mts', 'use.cts'], dir);
  run(node, [...base, '--module', 'esnext', '--moduleResolution', 'bundler', 'use.ts'], dir);
  console.log('types resolve: node16, nodenext, bundler');
} finally {
  rmSync(dir, { recursive: true, force: true });
}
