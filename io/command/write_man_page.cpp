// Prints the manual page; run when the program is built.

#include "io/command/standard_streams.h"
#include "io/options/man_page.h"

int main() { return tubewright::print_results(tubewright::man_page(), 0); }
