#include "io/options/help_text.h"

#include <cassert>

namespace tubewright {

namespace {

constexpr const char* usage_page =
    R"(tubewright: will a light welded tube frame hold, and how stiff is it?

  tubewright start frame.yaml      write a small frame to begin with
  tubewright check frame.yaml      solve its load cases and make every check

`tubewright --help` lists everything.
)";

constexpr const char* program_page =
    R"(tubewright: will a light welded tube frame hold, and how stiff is it?

Examples:
  tubewright start frame.yaml             write a small commented frame to begin
  tubewright check frame.yaml             solve its load cases, make every check
  tubewright check frame.yaml -o results  the same, with a report and 3D files
  tubewright check frame.yaml --json      the same, for another program to read
  tubewright twist frame.yaml             how stiff it is in torsion, and where
  tubewright floor frame.yaml             is the floor sheet worth its weight?
  tubewright schema > frame.schema.json   let an editor complete frame files

Usage: tubewright COMMAND ...

Commands:
  check FRAME.yaml       solve all load cases, make all checks
  twist FRAME.yaml       torsional stiffness, twist along the frame, weakest bay
  floor FRAME.yaml       the sheet against nothing and against tubes of its mass
  modes FRAME.yaml       natural frequencies, named in words
  buckle FRAME.yaml      by what factor loads may grow before the frame buckles
  rank FRAME.yaml        what each tube is worth, which change pays most
  break FRAME.yaml       every weld, tube and sheet lost in turn: what must hold
  ride FRAME.yaml        over the roads of `rides`: wheel loads, checks and wear
  size FRAME.yaml        the lightest sizes of the stock that pass, with a proof
  cut FRAME.yaml         cut list: lengths, angles, bars to buy, jig diagonals
  bench-test FRAME.yaml  what dial gauges should read; what their readings tell
  view FRAME.yaml        a window with the deformed frame, painted by stress
  vary FRAME.yaml        values of the file varied, the lightest that passes
  compare A.yaml B.yaml  two frames side by side, and what was changed
  start FILE.yaml        write a commented starter frame that passes
  schema                 print the JSON Schema (draft-07) of the frame file
  completion SHELL       print a completion script for bash, zsh or fish

Options:
  -h, --help           this page; `tubewright COMMAND --help` for one command
  --version            print the version

Exit code: 0 answered: all that carries load was checked and passes;
           1 answered: something fails, or is not proven (the first line and
           `verdict` in --json say which); 2 could not answer.
)";

constexpr const char* check_page =
    R"(Solve the load cases of a frame and make every check.

Examples:
  tubewright check frame.yaml
  tubewright check frame.yaml -o results --case brake --case left_turn
  tubewright check - --json < frame.yaml

Usage: tubewright check FRAME.yaml [options]

  FRAME.yaml           the frame file; `-` reads standard input

Options:
  -o, --output DIR     also write report.html, results.json, what `cut -o`
                       writes, loads.pvd and modes.pvd with their VTK files, and
                       of each case a picture, loads_*.png, and a solid model
                       for phones and 3D viewers, loads_*.glb, into DIR
  --no-pictures        leave out the .png and .glb files
  --changes            with -o: what `rank` and `break` answer goes into the
                       report, with plots and pictures; takes as long as they
  --case NAME          solve this load case only; may be given several times
  --second-order       axial forces act on the displaced frame (P-Delta)
  --large-displacement equilibrium on the deformed frame, however far it
                       bends; no sheets
  --json               print the results as one JSON object instead
  -q, --quiet          print the verdict only
  -h, --help           this page

The summary is coloured on a terminal, unless NO_COLOR is set.
Exit code: 0 answered: all that carries load was checked and passes;
           1 answered: something fails, or is not proven (the first line and
           `verdict` in --json say which); 2 could not answer.
)";

constexpr const char* twist_page =
    R"(Torsional stiffness of a frame, where it twists, and what for.

Examples:
  tubewright twist frame.yaml
  tubewright twist frame.yaml --hold clamped --json

Usage: tubewright twist FRAME.yaml [options]

  FRAME.yaml           the frame file, with `torsion`; `-` reads standard input

Options:
  --hold free|clamped  free (default): opposite couples at both ends, the frame
                       may warp; clamped: the rear pair of nodes held in all
                       directions
  --json               print the results as one JSON object instead
  -q, --quiet          print the stiffness only
  -h, --help           this page

Exit code: 0 answered; 1 answered, softer than `limits: {torsional_stiffness}`;
           2 could not answer.
)";

constexpr const char* floor_page =
    R"(Is the sheet worth its weight? The frame without it, with it, and with tubes of
the same mass.

Examples:
  tubewright floor frame.yaml
  tubewright floor frame.yaml --json

Usage: tubewright floor FRAME.yaml [options]

  FRAME.yaml           the frame file, with `panels` and `torsion`; `-` reads
                       standard input

Options:
  --json               print the results as one JSON object instead
  -q, --quiet          print the verdict only
  -h, --help           this page

Exit code: 0 answered, the frame with its sheet passes; 1 answered, it does not;
           2 could not answer.
)";

constexpr const char* modes_page =
    R"(Natural frequencies of a frame with everything it carries; free if it has no
supports: a vehicle with `tyre_rate` on its tyres, and beside that the frame's
own, springs locked and tyres left out.

Examples:
  tubewright modes frame.yaml
  tubewright modes frame.yaml -n 20 --json
  tubewright modes frame.yaml -o results

Usage: tubewright modes FRAME.yaml [options]

  FRAME.yaml           the frame file; `-` reads standard input

Options:
  -n, --count N        how many, beside rigid-body motions (10)
  -o, --output DIR     also write modes.pvd with its VTK files, an animation,
                       into DIR
  --json               print the results as one JSON object instead
  -q, --quiet          print the frequencies only
  -h, --help           this page

Exit code: 0 answered; 1 answered, the lowest is below `limits: {frequency}`;
           2 could not answer.
)";

constexpr const char* buckle_page =
    R"(By what factor the loads of each case may grow before the frame buckles.

Examples:
  tubewright buckle frame.yaml
  tubewright buckle frame.yaml --case brake -n 2 --json

Usage: tubewright buckle FRAME.yaml [options]

  FRAME.yaml           the frame file; `-` reads standard input

Options:
  --case NAME          this load case only; may be given several times
  -n, --count N        how many factors a case (4)
  --json               print the results as one JSON object instead
  -q, --quiet          print the lowest factor of each case only
  -h, --help           this page

Exit code: 0 answered, every factor is above 1; 1 answered, some is not;
           2 could not answer.
)";

constexpr const char* bench_test_page =
    R"(What dial gauges on the frame should read under given weights, and what their
readings tell.

Examples:
  tubewright bench-test frame.yaml
  tubewright bench-test frame.yaml --json

Usage: tubewright bench-test FRAME.yaml [options]

  FRAME.yaml           the frame file, with `bench_test`; `-` reads standard
                       input

Options:
  --json               print the results as one JSON object instead
  -q, --quiet          print the readings only
  -h, --help           this page

With `readings` the flexibility of the joints, and of the rivets, is fitted to
them, one at a time.
Exit code: 0 answered; 2 could not answer.
)";

constexpr const char* rank_page =
    R"(What each tube of a frame is worth, and which change pays most.

Examples:
  tubewright rank frame.yaml
  tubewright rank frame.yaml --diagonal brace
  tubewright rank frame.yaml --json

Usage: tubewright rank FRAME.yaml [options]

  FRAME.yaml           the frame file, with `cases`, `vehicle` or `torsion`;
                       `stock` may say what sizes there are; `-` reads standard
                       input

Each tube, and each with its mirror image and the rest of its path, is made one
size bigger, one size smaller and left out; every open bay gets a diagonal,
welded and pinned, alone and with its mirror image. Each of these frames is
solved exactly. `N m/deg a mm` is the slope with the wall: of the torsional
stiffness here, in --json also of the worst utilisation, the deflection, the
first frequency, the buckling factor and the mass. `can go`: without it every
case still passes and `limits` are met.

Options:
  --diagonal SECTION   the section of the file that diagonals are tried in; its
                       lightest tube by default
  --json               print the results as one JSON object instead
  -q, --quiet          print the change that pays most only
  -h, --help           this page

Exit code: 0 answered, and the frame as it is passes; 1 answered, it does not;
           2 could not answer.
)";

constexpr const char* ride_page =
    R"(Drives the vehicle over the roads of `rides`: steps, humps, holes, gravel,
measured profiles. What its wheels, carried masses and tubes go through, and how
long it lasts.

Examples:
  tubewright ride frame.yaml
  tubewright ride frame.yaml --json
  tubewright ride frame.yaml -o results

Usage: tubewright ride FRAME.yaml [options]

  FRAME.yaml           the frame file, with `rides` and `vehicle`; `-` reads
                       standard input

The vehicle is free, on linear tyres that let go of the ground, with its springs
and their dampers; it moves as a rigid body and in its elastic modes. Every tube
is checked at the instants that are worst for it, as in a load case. A ride is
made again with half the time step; if its peaks change it is not proven.

Options:
  -o, --output DIR     also write a report, all results, wheel forces and an
                       animation of the worst instant of each ride into DIR
  --json               print the results as one JSON object instead
  -q, --quiet          print one line a ride only
  -h, --help           this page

Exit code: 0 answered, every ride passes; 1 answered, one does not or is not
           proven; 2 could not answer.
)";

constexpr const char* break_page =
    R"(What if a weld lets go? Every weld, tube, panel and fastening of a sheet is lost
in turn, and every load case solved again, at a safety factor of 1.

Examples:
  tubewright break frame.yaml
  tubewright break frame.yaml --json

Usage: tubewright break FRAME.yaml [options]

  FRAME.yaml           the frame file, with `cases`, `vehicle` or `torsion`; `-`
                       reads standard input

A weld that breaks passes no force, and its tube hangs on its other end. A tube
that is lost goes with its weight, the loads along it and the panels along it.
What the frame cannot do without is listed, welds nearest to fatigue first, and
what is left of the torsional stiffness. Redundancy: how much of what a tube can
carry the rest can hold against it; they sum to the degree of static
indeterminacy.

Options:
  --json               print the results as one JSON object instead
  -q, --quiet          print what must hold only
  -h, --help           this page

Exit code: 0 answered, the frame bears the loss of any one part; 1 answered, it
           does not; 2 could not answer.
)";

constexpr const char* size_page =
    R"(The lightest sizes from the stock list with which a frame meets every limit, and
the proof that nothing lighter does.

Examples:
  tubewright size frame.yaml
  tubewright size frame.yaml -o lighter.yaml
  tubewright size frame.yaml --cheapest --seconds 30

Usage: tubewright size FRAME.yaml [options]

  FRAME.yaml           the frame file: `stock.sizes` says what sizes there are
                       (without it a list of common tube), `groups` which tubes
                       get one size, `keep` which stay; `-` reads standard input

A tube that no group names gets one size with its mirror image and the rest of
its path. What passes meets all checks of every load case and all of `limits`:
mass, stiffness, frequency, deflection, displacement of nodes. Every choice that
is told of was analysed as its own frame file would be; the others are left out
by bounds that hold for all of them. Where the time is up first, the answer is
the best found, and how much lighter another might be: not proven.

Options:
  -o, --output FILE    also write the frame in these sizes into a new file: the
                       text of the old one, with its comments
  --cheapest           the cheapest by the prices of `stock` instead of the
                       lightest
  --fail-safe          with any one weld broken too, at a safety factor of 1
  --seconds N          the longest the search may take (300)
  --json               print the results as one JSON object instead
  -q, --quiet          print the answer in one sentence only
  -h, --help           this page

Exit code: 0 answered, the sizes pass and nothing lighter does; 1 answered,
           nothing passes or it is not proven; 2 could not answer.
)";

constexpr const char* cut_page =
    R"(What to cut and buy for a frame.

Examples:
  tubewright cut frame.yaml
  tubewright cut frame.yaml --json
  tubewright cut frame.yaml -o workshop

Usage: tubewright cut FRAME.yaml [options]

  FRAME.yaml           the frame file; `stock` says what bars there are; `-`
                       reads standard input

A tube that runs through a node is whole there; one that ends is cut along the
face of what is there already, the bigger first. Left and right come out alike:
what is the image of each other is mitred on the plane between. Angles are
degrees from a square cut; two with a slash are mitre and bevel, two with a plus
are two planes. The joints follow in an order to weld them in, and by how much
welds draw in.

Panels of one sheet that lie in one plane are one piece of sheet metal. It ends
flush with the outer faces of its tubes; rivets stand along their middles, clear
of the joints.

Options:
  -o, --output DIR     also write cut_list.csv and drawings of the sheets in
                       full size, sheet_*.dxf and sheet_*.svg, into DIR
  --json               print the results as one JSON object instead
  -q, --quiet          print the bars and their mass only
  -h, --help           this page

Exit code: 0 answered; 2 could not answer.
)";

constexpr const char* view_page =
    R"(Open a window with the deformed frame in the colours of its stresses.

Examples:
  tubewright view frame.yaml
  tubewright view frame.yaml --case brake --colour axial --times 100

Usage: tubewright view FRAME.yaml [options]

  FRAME.yaml           the frame file; `-` reads standard input

Options:
  --case NAME          the load case to begin with
  --colour QUANTITY    stress (default): von Mises; utilisation: share of the
                       yield limit; axial: axial force; normal: stress along
                       the tube
  --times N            how many times the deflection is drawn
  -q, --quiet          no warnings
  -h, --help           this page

In the window: left and right arrow the case, c the colour, up and down the
deflection, 0 without it, f the first view, q close; drag to turn, Shift to
move, wheel to zoom; a click tells a tube's numbers. Needs a display; `check -o
DIR` writes the same pictures without one.
Exit code: 0 answered, all checked and passes; 1 answered, something fails or
is not proven; 2 could not answer.
)";

constexpr const char* vary_page =
    R"(Change values of a frame file, one after the other and all against each other,
and set what comes of it side by side.

Examples:
  tubewright vary frame.yaml --set sections.rail.wall=1.5,2,2.5
  tubewright vary frame.yaml --set nodes.R.z=120..200/5 -o results
  tubewright vary frame.yaml --set limits.mass=30,40 --shard 0/4 --json
  tubewright vary --merge results/vary_*_of_4.json -o results

Usage: tubewright vary FRAME.yaml --set PATH=VALUES ... [options]
       tubewright vary --merge FILE.json ... [options]

  FRAME.yaml           the frame file; `-` reads standard input

A path leads down the file: `sections.rail.wall`, `nodes.R.z` (or `nodes.R.2`),
`stock.sizes.0.price`, `cases.brake.brake`. Its last key need not be there yet.
Values are what could stand there, with commas between: numbers, `1 in`, words,
names; `lo..hi/n` are n numbers from lo to hi, both included. What holds a comma
goes into quotation marks. Each combination is read like a file of its own, so
mirror images and bends follow; the last `--set` varies fastest.

One run takes at most 100000 combinations. `--shard I/N` takes those whose
number, counted from 0, leaves I when divided by N, for several machines;
`--merge` then gives what one run would have given, to the last byte.

That one combination is a mechanism, or that its values do not go together, is
an answer: its row says why.

Options:
  --set PATH=VALUES    a value of the file and those it takes; may be given
                       several times, for all combinations
  --shard I/N          only every Nth combination, from number I on
  --merge              put the JSON answers of all shards together
  -o, --output DIR     also write vary.csv, vary.json and vary.svg, a plot, into
                       DIR; of a shard vary_I_of_N.csv and vary_I_of_N.json
  --json               print the results as one JSON object instead
  --csv                print the combinations as CSV instead
  -q, --quiet          print the lightest that passes only
  -h, --help           this page

Exit code: 0 answered, some combination passes, or a shard was answered;
           1 answered, none passes; 2 could not answer.
)";

constexpr const char* compare_page =
    R"(Set two frames side by side: mass, stiffness, frequency, what is used of the
limits, what to cut and buy, and what was changed from one to the other.

Examples:
  tubewright compare before.yaml after.yaml
  tubewright compare before.yaml after.yaml -o results
  tubewright compare before.yaml after.yaml --json

Usage: tubewright compare A.yaml B.yaml [options]

  A.yaml B.yaml        the frame files; one may be `-`, standard input

Parts are the same if they have the same name. Cost comes from the prices in
`stock`, if every size has one.

Options:
  -o, --output DIR     also write compare.html, with both frames drawn, into DIR
  --json               print the results as one JSON object instead
  -q, --quiet          print the comparison in one sentence only
  -h, --help           this page

Exit code: 0 answered, the second frame passes; 1 answered, it fails, is not
           proven or is a mechanism; 2 could not answer.
)";

constexpr const char* start_page =
    R"(Write a small frame that passes its checks, with every key of the frame file
explained, to begin a new frame from.

Examples:
  tubewright start frame.yaml
  tubewright start - | tubewright check -

Usage: tubewright start FILE.yaml

  FILE.yaml            the file to write, never over an existing one; `-` writes
                       standard output

Options:
  -h, --help           this page
)";

constexpr const char* schema_page =
    R"(Print the JSON Schema (draft-07) of the frame file.

Examples:
  tubewright schema > frame.schema.json
  # then, as the first line of a frame file, for editors with a YAML language
  # server:
  # yaml-language-server: $schema=frame.schema.json

Usage: tubewright schema

Options:
  -h, --help           this page
)";

constexpr const char* completion_page =
    R"(Print a script that completes tubewright's words in a shell: commands, options,
frame files, load cases of the frame that the line names. Packages install it;
this is for other installations.

Examples:
  source <(tubewright completion bash)     in ~/.bashrc
  source <(tubewright completion zsh)      in ~/.zshrc, after compinit
  tubewright completion fish | source      in ~/.config/fish/config.fish

Usage: tubewright completion SHELL
       tubewright completion --cases FRAME.yaml

  SHELL                bash, zsh or fish

Options:
  --cases FRAME.yaml   print the load cases of a frame instead, one a line;
                       nothing if it cannot be read
  -h, --help           this page
)";

}  // namespace

std::string short_usage() { return usage_page; }

std::string program_help() { return program_page; }

std::string command_help(const std::string& command) {
  if (command == "check") return check_page;
  if (command == "twist") return twist_page;
  if (command == "floor") return floor_page;
  if (command == "bench-test") return bench_test_page;
  if (command == "modes") return modes_page;
  if (command == "buckle") return buckle_page;
  if (command == "rank") return rank_page;
  if (command == "break") return break_page;
  if (command == "ride") return ride_page;
  if (command == "size") return size_page;
  if (command == "cut") return cut_page;
  if (command == "view") return view_page;
  if (command == "vary") return vary_page;
  if (command == "compare") return compare_page;
  if (command == "start") return start_page;
  if (command == "schema") return schema_page;
  assert(command == "completion");
  return completion_page;
}

}  // namespace tubewright
