// Prints the manual page; run when the program is built.

#include "io/man_page.h"
#include "io/standard_streams.h"

int main() { return tubewright::print_results(tubewright::man_page(), 0); }
