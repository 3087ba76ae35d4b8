# Completion of tubewright for fish, printed by `tubewright completion fish`.

function __tubewright_no_command
    test (count (commandline -opc)) -eq 1
end

# The command is one of the arguments.
function __tubewright_command
    set -l words (commandline -opc)
    test (count $words) -ge 2; and contains -- $words[2] $argv
end

# Of the words of a line the first after the command that is neither option nor an option's value.
function __tubewright_operand
    set -l pending no
    for word in $argv[3..-1]
        if test $pending = yes
            set pending no
        else if string match -q -- '-?*' $word
            contains -- $word @VALUED@; and set pending yes
        else
            string replace -r -- '^~/' $HOME/ $word
            return 0
        end
    end
    return 1
end

function __tubewright_needs_operand
    __tubewright_command $argv; and not __tubewright_operand (commandline -opc) >/dev/null
end

function __tubewright_frames
    __fish_complete_suffix .yaml | string match -r '^.*(?:\.ya?ml|/)$'
end

function __tubewright_cases
    set -l words (commandline -op)
    set -l frame (__tubewright_operand $words); or return
    test $frame != -; or return
    set -l program (string replace -r -- '^~/' $HOME/ $words[1])
    $program completion --cases=$frame 2>/dev/null </dev/null
end

complete -c tubewright -f
