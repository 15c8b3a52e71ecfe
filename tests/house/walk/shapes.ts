/** What the types say that a function may be given, as data for the walk. */
import ts from 'typescript';
import { exportsOf, sourceProgram } from '../../oracle/program.js';

export type Kind = 'number' | 'string' | 'boolean' | 'null' | 'array' | 'object' | 'function';

/** All that a value may be. */
export interface Shape {
  readonly kinds: Set<Kind>;
  /** Words to choose from. */
  readonly words: Set<string>;
  /** Objects with known keys; `open` takes keys of the caller's own. */
  readonly objects: {
    readonly keys: Map<string, { readonly shape: Shape; readonly optional: boolean }>;
    open?: Shape;
  }[];
  /** Items of an array. */
  readonly items: Shape[];
  /** Nothing is said: unknown, a type parameter, an object of the platform. */
  opaque: boolean;
}

/** An exported function with its parameters. */
export interface Signature {
  readonly name: string;
  readonly parameters: readonly { readonly name: string; readonly shape: Shape }[];
}

/** Every exported function of the front door. */
export function signatures(): readonly Signature[] {
  const program = sourceProgram();
  const checker = program.getTypeChecker();
  const known = new Map<ts.Type, Shape>();

  const shapeOf = (type: ts.Type): Shape => {
    const found = known.get(type);
    if (found) return found;
    const shape: Shape = { kinds: new Set(), words: new Set(), objects: [], items: [], opaque: false };
    known.set(type, shape);
    for (const member of type.isUnion() ? type.types : [type]) add(shape, member);
    return shape;
  };

  const add = (shape: Shape, type: ts.Type): void => {
    const { flags } = type;
    if (flags & (ts.TypeFlags.Undefined | ts.TypeFlags.Void | ts.TypeFlags.Never)) return;
    if (flags & ts.TypeFlags.NumberLike) shape.kinds.add('number');
    else if (flags & ts.TypeFlags.StringLike) {
      shape.kinds.add('string');
      if (type.isStringLiteral()) shape.words.add(type.value);
    } else if (flags & ts.TypeFlags.BooleanLike) shape.kinds.add('boolean');
    else if (flags & ts.TypeFlags.Null) shape.kinds.add('null');
    else if (flags & ts.TypeFlags.TypeParameter) shape.opaque = true;
    else if (checker.isArrayType(type) || checker.isTupleType(type)) {
      shape.kinds.add('array');
      for (const item of checker.getTypeArguments(type as ts.TypeReference)) shape.items.push(shapeOf(item));
    } else if (type.getCallSignatures().length > 0) shape.kinds.add('function');
    else if (flags & (ts.TypeFlags.Object | ts.TypeFlags.Intersection)) {
      shape.kinds.add('object');
      const [declaration] = type.symbol?.declarations ?? [];
      const ofPlatform = declaration && program.isSourceFileDefaultLibrary(declaration.getSourceFile());
      // Without known keys: named by the caller, as the inputs of a model of his own.
      const nameless = type.getProperties().length === 0 && !type.getStringIndexType();
      if (nameless || (ofPlatform && !ts.isMappedTypeNode(declaration))) shape.opaque = true;
      else {
        const open = type.getStringIndexType();
        shape.objects.push({
          keys: new Map(
            type.getProperties().map((property) => [
              property.name,
              {
                shape: shapeOf(checker.getTypeOfSymbol(property)),
                optional: (property.flags & ts.SymbolFlags.Optional) !== 0,
              },
            ]),
          ),
          ...(open && { open: shapeOf(open) }),
        });
      }
    } else shape.opaque = true;
  };

  return exportsOf(program, 'src/index.ts')
    .filter(({ flags }) => flags & ts.SymbolFlags.Function)
    .map((symbol) => ({
      name: symbol.name,
      parameters: (checker.getTypeOfSymbol(symbol).getCallSignatures()[0]?.parameters ?? []).map((parameter) => ({
        name: parameter.name,
        shape: shapeOf(checker.getTypeOfSymbol(parameter)),
      })),
    }))
    .sort((a, b) => a.name.localeCompare(b.name));
}

/** The shape of a key or an item, put together from all that the value may be. */
export function below(shapes: readonly Shape[], step: string | number): readonly Shape[] {
  return shapes.flatMap((shape) =>
    typeof step === 'number'
      ? shape.items
      : shape.objects.flatMap(({ keys, open }) => keys.get(step)?.shape ?? open ?? []),
  );
}
