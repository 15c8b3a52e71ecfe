/**
 * Measuring what was cut: gauge-block stacks.
 *
 * @module measure
 */
export {
  type GaugeBlockOptions,
  type GaugeBlockSetName,
  type GaugeBlockStack,
  gaugeBlockSet,
  gaugeBlockStack,
  gaugeBlockStackPair,
} from './gauge-blocks.js';
