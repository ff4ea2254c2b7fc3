/** Tests begin where the page has come whole: with all of its words. */
import '../src/words/later';
