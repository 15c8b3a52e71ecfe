/**
 * Temperature in a model: lengths are stated at the reference temperature (20 °C by ISO 1), each on its own
 * material, but the work is done in a room that is not there. A length L of the coefficient α is L(1 + α Δθ) at
 * Δθ from the reference temperature.
 */
import { refuse } from '../core/errors.js';
import { anyNumber, choice, defaulted, type Fields, later, optional, read, readValue } from '../core/read.js';
import { readByName, wholeModel } from './functions.js';
import { type Arithmetic, frozen, type Model, type Quantity } from './model.js';

/** What a length lies on: the work, or the instrument or machine whose scale or body gives it. */
export type LengthOf = 'work' | 'instrument';

/** The inputs that temperature adds. */
export type TemperatureInput = 'workTemperature' | 'instrumentTemperature' | 'workExpansion' | 'instrumentExpansion';

/** Which lengths lie on what. */
export interface TemperatureOptions<Name extends string> {
  /** For each length that temperature changes, what it lies on; lengths left out are taken as they are. */
  readonly lengths: Readonly<Partial<Record<NoInfer<Name>, LengthOf>>>;
  /**
   * What the result lies on, if it is a length that is wanted at the reference temperature.
   * @defaultValue none: the result is taken as it is
   */
  readonly result?: LengthOf;
  /** Reference temperature; 68 where temperatures are in degrees Fahrenheit. @defaultValue 20 */
  readonly referenceTemperature?: number;
}

const ADDED: Readonly<Record<TemperatureInput, Quantity>> = {
  workTemperature: { kind: 'temperature', meaning: 'temperature of the work' },
  instrumentTemperature: { kind: 'temperature', meaning: 'temperature of the instrument' },
  workExpansion: { kind: 'number', meaning: 'expansion coefficient of the work, per degree' },
  instrumentExpansion: { kind: 'number', meaning: 'expansion coefficient of the instrument, per degree' },
};

/**
 * Adds temperature to a model: its lengths are stated at the reference temperature, the model is evaluated with
 * them as they are at the temperatures given, and a length that comes out is taken back to the reference
 * temperature on its own material. Where both temperatures come from one thermometer, say so by a correlation.
 * @param model - Any model of the library; paths of refusals start with `model`.
 * @param options - Which lengths lie on what; see {@link TemperatureOptions}. Paths are its own keys.
 * @returns The model with four more inputs: temperatures and expansion coefficients of work and instrument.
 * @throws GeneratrixError `unknown-option`, `out-of-range` or `wrong-kind` for options that cannot be read;
 * `contradiction` where the model has such an input already, or a named input or the result is no length.
 * @example
 * ```ts
 * import { atTemperature, budget, type Model } from 'generatrix/budget';
 * const reading: Model<'reading'> = {
 *   name: 'reading',
 *   result: { kind: 'length', meaning: 'diameter' },
 *   inputs: { reading: { kind: 'length', meaning: 'reading of the micrometer' } },
 *   evaluate: (_, { reading }) => reading,
 * };
 * // Aluminium at 30 °C read with a steel micrometer at 25 °C.
 * const { value } = budget({
 *   model: atTemperature(reading, { lengths: { reading: 'instrument' }, result: 'work' }),
 *   inputs: {
 *     reading: { value: 80, plusMinus: 0.005 },
 *     workTemperature: { value: 30, plusMinus: 1 },
 *     instrumentTemperature: { value: 25, plusMinus: 1 },
 *     workExpansion: { value: 23e-6, plusMinus: 1e-6 },
 *     instrumentExpansion: { value: 11.5e-6, plusMinus: 1e-6 },
 *   },
 * });
 * value.toFixed(4); // => '79.9862'
 * ```
 */
export function atTemperature<Name extends string, ErrorName extends string = never>(
  model: Model<Name, ErrorName>,
  options: TemperatureOptions<Name | ErrorName>,
): Model<Name | TemperatureInput, ErrorName> {
  const { inputs: own, result: gives, name: modelName } = readValue<Model>(model, wholeModel, 'model');
  const given = read<TemperatureOptions<string>, 'referenceTemperature'>(options, OPTIONS);
  const { result, referenceTemperature } = given;
  for (const name of Object.keys(ADDED)) {
    if (Object.hasOwn(own, name)) refuse('contradiction', `model.inputs.${name}`, name, 'must not be there already');
  }
  const names = Object.keys(own);
  const lengths = readByName(given.lengths, LENGTH_OF, names, 'lengths');
  for (const name of lengths.keys()) {
    if (own[name]?.kind !== 'length') refuse('contradiction', `lengths.${name}`, name, 'must be a length');
  }
  if (result !== undefined && gives.kind !== 'length') {
    refuse('contradiction', 'result', gives.kind, 'must be a length to be taken back to the reference');
  }
  return frozen({
    name: `${modelName}-at-temperature`,
    result: model.result,
    inputs: { ...model.inputs, ...ADDED } as Model<Name | TemperatureInput, ErrorName>['inputs'],
    evaluate: <T>(m: Arithmetic<T>, inputs: Readonly<Record<string, T>>): T => {
      const growth = (of: LengthOf): T => {
        const above = m.subtract(inputs[`${of}Temperature`] as T, m.constant(referenceTemperature));
        return m.add(m.constant(1), m.multiply(inputs[`${of}Expansion`] as T, above));
      };
      const factors = { work: growth('work'), instrument: growth('instrument') };
      const grown = names.map((name): [string, T] => {
        const of = lengths.get(name);
        return [name, of ? m.multiply(inputs[name] as T, factors[of]) : (inputs[name] as T)];
      });
      const found = model.evaluate(m, Object.fromEntries(grown) as Readonly<Record<Name | ErrorName, T>>);
      return result ? m.divide(found, factors[result]) : found;
    },
  });
}

const LENGTH_OF = choice('work', 'instrument');
const OPTIONS: Fields<TemperatureOptions<string>, 'referenceTemperature'> = {
  lengths: later(),
  result: optional(LENGTH_OF),
  referenceTemperature: defaulted(anyNumber, 20),
};
