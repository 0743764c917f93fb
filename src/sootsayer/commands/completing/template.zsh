#compdef sootsayer
# Completes sootsayer in zsh. Written by: sootsayer completion zsh
# It starts no program but awk, and reads only the names of cases and the ids of packs.

typeset -g _sootsayer_table=@TABLE@
typeset -g _sootsayer_rules=@RULES@
typeset -g _sootsayer_cases=@CASES@

# The shop's own folder as the program finds it, into shop; empty where there is none.
_sootsayer_find_shop() {
    shop=${shop:-${SOOTSAYER_SHOP-}}
    [[ -n $shop ]] && return
    local folder=$PWD
    while [[ -n $folder && ! -f $folder/shop.yaml ]]; do
        folder=${folder%/*}
    done
    shop=$folder
}

# Offers words; what is no plain name is never offered.
_sootsayer_words() {
    local -aU plain
    plain=(${(M)@:#[A-Za-z0-9._-]##})
    (( $#plain )) && compadd -- $plain
}

# Offers the ids in the sections (as $1, a pattern) of the packs in force.
_sootsayer_ids() {
    local -a packs ids
    packs=($_sootsayer_rules/*.yaml(N.) ${shop:+$shop/packs/*.yaml(N.)})
    (( $#packs )) || return 1
    ids=(${(f)"$(command awk -v wanted="^($1):" '/^[a-z]/ { inside = $0 ~ wanted }
        inside && /^  [a-z0-9][a-z0-9-]*:/ { sub(/:.*/, ""); print $1 }' $packs 2>/dev/null)"})
    _sootsayer_words $ids
}

_sootsayer_value() {
    setopt localoptions extendedglob
    local -a names
    _sootsayer_find_shop
    case ${1%\*} in
        case)
            names=(${shop:-.}/cases/*.yaml(N.:t:r) $_sootsayer_cases/*.yaml(N.:t:r))
            _sootsayer_words ${names:#people}
            _files -g '*.yaml'
            ;;
        pack) _files -g '*.yaml' ;;
        id) _sootsayer_ids 'actions|channels|checks|families|faults|findings|interlocks|limits|quantities|remedies|signals' ;;
        fault) _sootsayer_ids faults ;;
        remedy) _sootsayer_ids remedies ;;
        action) _sootsayer_ids actions ;;
        language)
            names=(en $_sootsayer_rules/words/*(N/:t))
            [[ -n $shop ]] && names+=($shop/words/*(N/:t))
            _sootsayer_words $names
            ;;
        file) _files ;;
        folder|shop) _files -/ ;;
        \=*) _sootsayer_words ${(s:,:)${1#=}} ;;
    esac
}

# What the table says of the word $1 at this path, into found and value.
_sootsayer_look_up() {
    local at what word says
    found= value=
    while IFS='|' read -r at what word value says; do
        if [[ $at == "$path_typed" && $what != place && $word == "$1" ]]; then
            found=$what
            return
        fi
    done <<<"$_sootsayer_table"
    value=
}

_sootsayer() {
    setopt localoptions extendedglob
    local path_typed= shop= waits= found= value= word at what says places= i
    local -i count=0 nth=0
    local -a commands_here options_here
    for (( i = 2; i < CURRENT; i++ )); do
        word=${(Q)words[i]}
        if [[ -n $waits ]]; then
            [[ $waits == shop ]] && shop=${word/#\~/$HOME}
            waits=
            continue
        fi
        if [[ -z $places && $word == -- ]]; then
            places=only
            continue
        fi
        if [[ -z $places && $word == --*=* ]]; then
            _sootsayer_look_up "${word%%=*}"
            [[ $value == shop ]] && shop=${${word#*=}/#\~/$HOME}
            continue
        fi
        found=
        [[ -z $places ]] && _sootsayer_look_up "$word"
        case $found in
            command) path_typed=${path_typed:+$path_typed }$word count=0 ;;
            option) waits=$value ;;
            *) [[ $word == -* && -z $places ]] || (( ++count )) ;;
        esac
    done
    if [[ -z $waits && -z $places && ${words[CURRENT]} == --*=* ]]; then
        _sootsayer_look_up "${words[CURRENT]%%=*}"
        waits=$value
        compset -P '*='
    fi
    if [[ -n $waits ]]; then
        _sootsayer_value "$waits"
        return
    fi
    local place=
    while IFS='|' read -r at what word value says; do
        [[ $at == "$path_typed" ]] || continue
        case $what in
            option) options_here+=("$word:$says") ;;
            command) commands_here+=("$word:$says") ;;
            place)
                [[ $nth == $count || ($value == *\* && $nth -lt $count) ]] && place=$value
                (( ++nth ))
                ;;
        esac
    done <<<"$_sootsayer_table"
    if [[ -z $places && ${words[CURRENT]} == -* ]]; then
        _describe -o option options_here
        return
    fi
    (( count == 0 && $#commands_here )) && _describe command commands_here
    [[ -n $place ]] && _sootsayer_value "$place"
    return 0
}

if [[ ${funcstack[1]} == _sootsayer ]]; then
    _sootsayer "$@"
else
    compdef _sootsayer sootsayer
fi
