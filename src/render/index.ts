export { markdownReport, type ReportSubject } from './markdown-report.js';
export { showFigure } from './show-figure.js';
export { showQuantity } from './show-quantity.js';
export { verdictWords } from './verdict-words.js';
