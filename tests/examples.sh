#!/bin/sh
# The C example on its own job files, and on jobs spoilt in many ways: the exit
# status, and what the message must name.
set -eu
program=$1
searcher=$2
jobs=$(dirname "$0")/../examples/jobs
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
count=0

# runs STATUS WORDS ARGUMENTS... : WORDS must stand in what is printed
runs() {
    want=$1
    words=$2
    shift 2
    status=0
    "$program" "$@" >"$scratch/out" 2>&1 || status=$?
    if [ "$status" -ne "$want" ] || ! grep -qF -- "$words" "$scratch/out"; then
        echo "size_job $*: status $status, want $want with: $words"
        head -n 20 "$scratch/out"
        exit 1
    fi
    count=$((count + 1))
}

# spoilt WORDS SED-SCRIPT : the demo job, changed, must be refused with WORDS
spoilt() {
    sed "$2" "$jobs/community_hall.json" >"$scratch/job.json"
    if cmp -s "$jobs/community_hall.json" "$scratch/job.json"; then
        echo "nothing was spoilt by: $2"
        exit 1
    fi
    runs 2 "$1" "$scratch/job.json"
}

runs 0 "CAUTION"
runs 0 "| verdict |" --markdown
runs 0 "== working" --working
runs 0 "3: current sensors at the connection point"
runs 0 "# What must be bought" --markdown
runs 0 "computed above" --explained --markdown
for job in community_hall micro_inverter six_inputs; do
    runs 0 "every limit that must hold was assessed and holds" "$jobs/$job.json"
done
runs 1 "the input can be destroyed on a cold morning" "$jobs/must_fail.json"
runs 1 "the data sheet contradicts itself" "$jobs/must_fail.json"
runs 0 "What may go on the inverter: invented 9 kW inverter" --review
runs 0 "## remarks" --review --markdown "$jobs/six_inputs.json"
runs 1 "polarity reversed" --readings "$jobs/test_day.json"
runs 1 "modules missing from the string: 1" --readings "$jobs/test_day.json"
runs 1 "the light was too weak or not steady" --readings "$jobs/test_day.json"
runs 0 "Readings on the day" --readings
runs 2 "usage" --nonsense
runs 0 "usage" --help
runs 2 "no_such.json" "$scratch/no_such.json"

spoilt "inverters[0].inputs[0].max_voltage: outside the allowed range; given 9000 V" '0,/"1000 V"/s//"9000 V"/'
spoilt "unit 'kV'" '0,/"1000 V"/s//"1 kV"/'
spoilt "site.temp_min" 's/"-2 °C"/"cold"/'
spoilt "site.temp_min: missing" '/"temp_min"/d'
spoilt "did you mean 'voc'" 's/"voc":/"vocc":/'
spoilt "line 10" '/"temp_min"/s/,$//'
spoilt "site.building" 's/"other_building"/"shed"/'
spoilt "no plane of the site is named" 's/"plane": "north roof"/"plane": "south roof"/'
spoilt "arrays[0].modules_per_string" 's/"modules_per_string": 9/"modules_per_string": 9.5/'
spoilt "arrays[0].strings" 's/"strings": 2/"strings": -2/'
spoilt "arrays[0].strings" 's/"strings": 2/"strings": null/'
spoilt "rules.preset: no preset is named 'asnzs_5033_2012'; allowed asnzs_5033_2014, asnzs_5033_2021, iec" \
    's/"asnzs_5033_2021"/"asnzs_5033_2012"/'
spoilt "uk_fixed_factors; did you mean 'asnzs_5033_2014'?" 's/"asnzs_5033_2021"/"asnzs_5033_2012"/'
spoilt "phases" 's/"phases": 3/"phases": true/'
sed 's/"max_pv_power": "13500 W"/"max_pv_power": "none"/' "$jobs/community_hall.json" >"$scratch/none.json"
runs 0 "the maker states no maximum" "$scratch/none.json"
spoilt "must have a value" '0,/"voc": "39.2 V"/s//"voc": "none"/'
spoilt "more than once" 's/"strings": 2,/"strings": 2, "strings": 2,/'
# the search
program=$searcher
runs 0 "Proven: every other stringing was judged or ruled out."
runs 0 "B-B-B-B-B-B-B" "$jobs/boat_shed.json"
runs 2 "usage" --nonsense
runs 0 "usage" --help
runs 2 'the job has no "search"' "$jobs/community_hall.json"
# sought WORDS STATUS SED-SCRIPT : the search job, changed
sought() {
    sed "$3" "$jobs/boat_shed.json" >"$scratch/job.json"
    runs "$2" "$1" "$scratch/job.json"
}
sought "did you mean 'objective'" 2 's/"objective"/"objectif"/'
sought "search.answers: outside the allowed range; given 0" 2 's/"answers": 3/"answers": 0/'
sought "no module of the system is named" 2 '0,/"invented 440 W module"/s//"another"/'
sought "plane[0].capacity" 2 '0,/"capacity": 17,/s///'
sought "search.wanted_power" 2 's/"objective": "energy"/"objective": "nearest_power"/'
sought "Nothing fits" 1 's/"shortest_string": 5/"shortest_string": 30/'
echo "$count runs as they should"
