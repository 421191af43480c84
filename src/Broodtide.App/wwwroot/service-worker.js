// While the program is being written nothing is kept: every change shows at once.
'use strict';
