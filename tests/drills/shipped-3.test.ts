/** Every shipped drill, part 3 of 3: worked by a good, a slow and a reckless trainee. */
import { everyDrill } from './support/every-drill.ts';

everyDrill(2, 3);
