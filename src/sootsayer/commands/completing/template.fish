# Completes sootsayer in fish, from 3.1. Written by: sootsayer completion fish
# It starts no program but awk, and reads only the names of cases and the ids of packs.

set -g __sootsayer_table (string split \n -- @TABLE@)
set -g __sootsayer_rules @RULES@
set -g __sootsayer_cases @CASES@

# The shop's own folder as the program finds it; $argv[1]: what --shop named.
function __sootsayer_shop
    if test -n "$argv[1]"
        string replace -r '^~' -- "$HOME" $argv[1]
        return
    end
    if test -n "$SOOTSAYER_SHOP"
        echo $SOOTSAYER_SHOP
        return
    end
    set -l folder $PWD
    while test -n "$folder"; and not test -f $folder/shop.yaml
        set folder (string replace -r '/[^/]*$' '' -- $folder)
    end
    echo $folder
end

# The names of the YAML files among the paths; what is no plain name is never offered.
function __sootsayer_names
    string replace -r '^.*/([^/]*)\.yaml$' '$1' -- $argv | string match -r '^[A-Za-z0-9._-]+$' | string match -v people
end

# The ids in the sections (as $argv[1], a pattern) of the packs that follow.
function __sootsayer_ids
    command awk -v wanted="^($argv[1]):" '/^[a-z]/ { inside = $0 ~ wanted }
        inside && /^  [a-z0-9][a-z0-9-]*:/ { sub(/:.*/, ""); print $1 }' $argv[2..-1] 2>/dev/null
end

# What may stand for a value of the kind $argv[1]; $argv[2] what is typed, $argv[3] the shop.
function __sootsayer_value
    set -l typed $argv[2]
    set -l shop (__sootsayer_shop $argv[3])
    set -l packs $__sootsayer_rules/*.yaml
    set -l own cases/*.yaml
    set -l tongues $__sootsayer_rules/words/*/
    if test -n "$shop"
        set -l more $shop/packs/*.yaml
        set packs $packs $more
        set own $shop/cases/*.yaml
        set -l more $shop/words/*/
        set tongues $tongues $more
    end
    switch (string replace -r '\*$' '' -- $argv[1])
        case case
            set -l shipped $__sootsayer_cases/*.yaml
            __sootsayer_names $own $shipped
            __fish_complete_suffix $typed .yaml
        case pack
            __fish_complete_suffix $typed .yaml
        case id
            __sootsayer_ids 'actions|channels|checks|families|faults|findings|interlocks|limits|quantities|remedies|signals' $packs
        case fault
            __sootsayer_ids faults $packs
        case remedy
            __sootsayer_ids remedies $packs
        case action
            __sootsayer_ids actions $packs
        case language
            echo en
            string replace -r '^.*/([^/]*)/$' '$1' -- $tongues
        case file
            __fish_complete_path $typed
        case folder shop
            __fish_complete_directories $typed ''
        case '=*'
            string split , -- (string sub -s 2 -- $argv[1])
    end
end

# Everything that may stand where the cursor is, with what it does.
function __sootsayer_complete
    set -l path ''
    set -l shop ''
    set -l waits ''
    set -l places ''
    set -l count 0
    set -l typed (commandline -ct)
    for word in (commandline -opc)[2..-1]
        if test -n "$waits"
            test "$waits" = shop; and set shop $word
            set waits ''
            continue
        end
        if test -z "$places"; and test "$word" = --
            set places only
            continue
        end
        set -l value ''
        set -l name $word
        if test -z "$places"; and string match -q -- '--*=*' $word
            set name (string replace -r '=.*$' '' -- $word)
            set value (string replace -r '^[^=]*=' '' -- $word)
        end
        set -l found (string match -r -- '^'(string escape --style=regex -- $path)'\|(?:command|option)\|'(string escape --style=regex -- $name)'\|.*$' $__sootsayer_table)
        test -n "$places"; and set found
        if test (count $found) -eq 0
            if test -n "$places"; or not string match -q -- '-*' $word
                set count (math $count + 1)
            end
            continue
        end
        set -l parts (string split -m 4 '|' -- $found[1])
        if test $parts[2] = command
            set path (string trim -- "$path $word")
            set count 0
        else if test "$name" = "$word"
            set waits $parts[4]
        else if test "$parts[4]" = shop
            set shop $value
        end
    end
    if test -z "$waits$places"; and string match -q -- '--*=*' $typed
        set -l name (string replace -r '=.*$' '' -- $typed)
        set -l found (string match -r -- '^'(string escape --style=regex -- $path)'\|option\|'(string escape --style=regex -- $name)'\|.*$' $__sootsayer_table)
        if test (count $found) -gt 0
            set -l kind (string split -m 4 '|' -- $found[1])[4]
            __sootsayer_value $kind (string replace -r '^[^=]*=' '' -- $typed) "$shop" | string replace -r '^' -- "$name="
        end
        return
    end
    if test -n "$waits"
        __sootsayer_value $waits "$typed" "$shop"
        return
    end
    set -l nth 0
    for line in (string match -r -- '^'(string escape --style=regex -- $path)'\|.*$' $__sootsayer_table)
        set -l parts (string split -m 4 '|' -- $line)
        switch $parts[2]
            case option
                if test -z "$places"; and string match -q -- '-*' $typed
                    printf '%s\t%s\n' $parts[3] $parts[5]
                end
            case command
                test $count -eq 0; and printf '%s\t%s\n' $parts[3] $parts[5]
            case place
                if test $nth -eq $count; or begin
                        string match -q -- '*\*' $parts[4]; and test $nth -lt $count
                    end
                    string match -q -- '-*' $typed; and test -z "$places"; or __sootsayer_value $parts[4] "$typed" "$shop"
                end
                set nth (math $nth + 1)
        end
    end
end

complete -c sootsayer -f -a '(__sootsayer_complete)'
