/** The few functions of jstat that are used: exact distributions, where simple-statistics only approximates. */
declare module 'jstat' {
  export const jStat: {
    readonly normal: {
      /** Cumulative distribution function. */
      cdf(value: number, mean: number, standardDeviation: number): number;
      /** Quantile function. */
      inv(probability: number, mean: number, standardDeviation: number): number;
    };
    readonly studentt: {
      inv(probability: number, degreesOfFreedom: number): number;
    };
  };
}
