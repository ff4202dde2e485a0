/** Adds an exponential to a list of them: to the one of its rate, where there is one. */
export function addTerm(rates: number[], coefficients: number[], rate: number, coefficient: number): void {
  const known = rates.indexOf(rate);
  if (known >= 0) coefficients[known] = (coefficients[known] as number) + coefficient;
  else {
    rates.push(rate);
    coefficients.push(coefficient);
  }
}
