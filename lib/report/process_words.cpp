#include "process_words.hpp"

namespace lakebound::layout {

const ProcessWords& process_words(Process process) {
    static const std::array<ProcessWords, std::size(WordTable<Process>::rows)> all{{
        {
            .process = Process::watercolour,
            .verdicts = {{{"will chalk", "will probably chalk", "The dry cake powders and the colour comes off on a finger."},
                          {"on the lean side", "on the lean side", "May chalk: rub a dry swatch with a tissue before you make more."},
                          {"should hold", "should hold, not surely", "Enough gum to bind, not so much that it shines."},
                          {"on the rich side", "on the rich side", "May crack or shine, and be slow to give colour."},
                          {"too rich: will crack", "too rich: will probably crack", "Cracks as it dries, shines, and stays hard under the brush."}}},
            .binds = "gum",
            .fills = "glycerol and sugars fill but do not bind",
            .ground = "the paper that you paint on",
            .swatch_work = "Work powder and medium on glass with the knife for two minutes, until no dry grain is left; two or three "
                   "drops of water more if it is stiff. Water leaves again: it changes nothing.",
            .too_much = {"The back of a finger laid on for five seconds sticks: stays sticky."},
            .self_heating = {},
            .perishable = {},
            .order_of_work = work_in_gum,
        },
        {
            .process = Process::oil,
            .verdicts = {{{"will chalk", "will probably chalk", "Too little oil: it drags, dries matt and powders."},
                          {"on the lean side", "on the lean side", "May chalk or sink: lay a thin stripe and rub it once it is dry."},
                          {"should hold", "should hold, not surely", "Enough oil to bind, not so much that it wrinkles."},
                          {"on the rich side", "on the rich side", "May wrinkle and yellow in thick strokes."},
                          {"too rich: will wrinkle", "too rich: will probably wrinkle", "Wrinkles, yellows, and stays soft under its skin."}}},
            .binds = "oil",
            .fills = "wax fills but does not bind",
            .ground = "the primed board or canvas that you paint on",
            .swatch_work = "Work powder and oil on glass with the knife for three minutes. Add nothing: a drop more is another k.",
            .too_much = {"A skin in folds: wrinkles.", "The back of a finger laid on for five seconds lifts the sheet, after twice the drying time: stays sticky."},
            .self_heating = Caution{"Oily rags",
                    "Rags and paper with drying oil heat themselves and can catch fire within hours when they lie "
                    "in a heap. Spread them flat outdoors to dry, or keep them under water in a closed metal can. "
                    "Never bin them balled up.",
                    {}},
            .perishable = {},
            .order_of_work = work_in_oil,
        },
        {
            .process = Process::egg_tempera,
            .verdicts = {{{"will powder off", "will probably powder off", "Powders off under a finger."},
                          {"on the lean side", "on the lean side", "May powder off: a stripe dried on glass should peel as one film."},
                          {"should hold", "should hold, not surely", "Enough yolk to bind; a stripe dried on glass should peel as one film."},
                          {"on the rich side", "on the rich side", "May turn greasy and clump."},
                          {"too rich: will not last", "too rich: will probably not last", "Greasy, clumps, and flakes off later."}}},
            .binds = "yolk",
            .fills = "glycerol and sugars fill but do not bind",
            .ground = "the gessoed panel that you paint on",
            .swatch_work = "Work the powder with its medium for a minute and paint at once; water to make it flow changes nothing.",
            .too_much = {"The back of a finger laid on for five seconds sticks: stays sticky."},
            .self_heating = {},
            .perishable = Caution{"Raw egg",
                        "Wash hands, slab and tools as after cooking with raw egg. Throw the medium away after {}, "
                        "or as soon as it smells.",
                        {}},
            .order_of_work = work_in_yolk,
        },
    }};
    return all.at(static_cast<std::size_t>(process));
}

} // namespace lakebound::layout
