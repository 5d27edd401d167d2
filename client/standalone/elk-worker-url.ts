/** The layout engine of the charts from inside the page: a page on a disk has no file beside it to load a worker from. */
import source from 'elkjs/lib/elk-worker.min.js?raw';

export default URL.createObjectURL(new Blob([source], { type: 'text/javascript' }));
