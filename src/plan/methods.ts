/** The list of methods as types and as an array. */
import type { Machines, Method, MethodTypes } from '../method/method.js';
import * as listed from './list.js';

type TypesOf<M> = M extends Method<infer T> ? T : never;

/** The types of every method. */
export type AnyMethod = TypesOf<(typeof listed)[keyof typeof listed]>;

/** A way to cut the part. */
export type MethodName = AnyMethod['name'];

/** A part that some method cuts. */
export type Part = AnyMethod['part'];

type Intersection<U> = (U extends unknown ? (value: U) => void : never) extends (value: infer I) => void ? I : never;

/** What the methods on one kind of machine may want of it. */
export type EquipmentOn<K extends keyof Machines> = Intersection<Extract<AnyMethod, { readonly on: K }>['equipment']>;

/** Every method. Their types differ; who goes through all of them may only hand one method's things back to it. */
export const METHODS: readonly Method<MethodTypes>[] = Object.values(
  listed,
) as unknown as readonly Method<MethodTypes>[];
