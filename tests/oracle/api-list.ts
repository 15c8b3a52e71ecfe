/** The public interface as text: every export of every room with its type, without comments. */
import { existsSync, readdirSync } from 'node:fs';
import ts from 'typescript';
import { root } from './examples.js';
import { exportsOf, sourceProgram } from './program.js';

const printer = ts.createPrinter({ removeComments: true });

/** Without the bodies of functions and methods. */
const bare = <T extends ts.Node>(node: T): T =>
  ts.visitEachChild(
    node,
    (child) => (ts.isBlock(child) ? undefined : ts.isClassElement(child) ? bare(child) : child),
    undefined,
  );

/** The compiler writes the members of a union in the order in which it met them: here they stand in that of the alphabet. */
function inOrder(declaration: string): string {
  return declaration.replace(/(?:"[\w-]+"|\b[A-Z]\w*)(?: \| (?:"[\w-]+"|\b[A-Z]\w*))+/g, (members) =>
    members.split(' | ').sort().join(' | '),
  );
}

/** The list as it should stand in docs/api-list.txt. */
export function apiList(): string {
  const program = sourceProgram();
  const checker = program.getTypeChecker();
  const declared = (node: ts.Declaration): string =>
    ts.isVariableDeclaration(node)
      ? `const ${node.name.getText()}: ${checker.typeToString(checker.getTypeAtLocation(node), node, ts.TypeFormatFlags.NoTruncation)};`
      : printer
          .printNode(ts.EmitHint.Unspecified, bare(node), node.getSourceFile())
          .replace(/^export (?:async )?|\n$/g, '');
  return readdirSync(`${root}src`)
    .filter((name) => existsSync(`${root}src/${name}/index.ts`))
    .map((room) => {
      const symbols = exportsOf(program, `src/${room}/index.ts`);
      const lines = symbols.flatMap(({ declarations = [] }) => declarations.map(declared)).map(inOrder);
      return `# generatrix/${room}\n\n${lines.sort().join('\n')}\n`;
    })
    .join('\n');
}
