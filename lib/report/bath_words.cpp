#include "lakebound/report/bath_words.hpp"

namespace lakebound {

Caution bath_caution_words(BathCaution caution) {
    switch (caution) {
    case BathCaution::never_closed:
        return {"Gas", "Never put a lid on a bath that fizzes: in a closed jar the gas comes to two or three atmospheres, and "
                       "glass bursts.", {}};
    case BathCaution::foam_over:
        return {"Foam", "Hot foam climbs fast. Pour slowly, into a tall vessel, over the sink, and wait while it falls.", {}};
    case BathCaution::ammonia:
        return {"Ammonia", "Ammonia comes off an alkaline bath, and out of a bottle of its solution. Open the window, stop below "
                           "pH 7.5, and keep your face away.", {}};
    case BathCaution::eye_damage:
        return {"Eyes, for good", "A salt of this bath can damage the eyes for good. Tight goggles before the bag is opened; "
                                  "rinse a splash for a quarter of an hour and see a doctor at once.", {}};
    case BathCaution::alkali_splash:
        return {"Alkali", "Soda and potash solutions hurt eyes and take the grease from skin. Goggles and gloves; rinse at "
                          "once with much water.", {}};
    case BathCaution::scald:
        return {"Scalds", "Strain when the liquor is hand-warm, not boiling. Lift no full pot alone, and keep children away.", {}};
    case BathCaution::poisonous_plant:
        return {"Plants", "Many dye plants are poisonous, and their steam and liquor too. Know the plant, taste nothing, "
                          "open a window.", {}};
    case BathCaution::kitchen:
        return {"Kitchen", "Pots, spoons and jars of the dye work stay apart from food for good.", {}};
    case BathCaution::drain:
        return {"Drain", "Bring what you pour away to pH 6 to 9 first, with much water; the rules of your sewer and your town "
                         "go before this page.", {}};
    case BathCaution::mould:
        return {"Mould", "Damp cake grows mould in days. Spread it thin, turn it, and throw away what has fur.", {}};
    case BathCaution::dust:
        return {"Dust", "Dry lake is fine dust: an FFP2 or P3 mask, a damp cloth, no sweeping.", {}};
    case BathCaution::data_sheet:
        return {"First of all", "What the safety data sheet of each product says goes before this page, and so do local codes "
                                "and licensed practice. These figures are an estimate: try a tenth of the bath first.", {}};
    }
    return {};
}

const char* bath_stage_words(BathStage stage) noexcept {
    switch (stage) {
    case BathStage::planned: return "planned";
    case BathStage::straining: return "straining";
    case BathStage::laying: return "laying the lake";
    case BathStage::washing: return "washing";
    case BathStage::drying: return "drying";
    case BathStage::at_rest: return "dry";
    case BathStage::jarred: return "in its jar";
    }
    return "";
}

const char* bath_step_words(BathStep step) noexcept {
    switch (step) {
    case BathStep::begin: return "Begin: nothing has been read yet.";
    case BathStep::read_filter_again: return "Read volume and time at the filter once more: two readings give the finish.";
    case BathStep::let_it_run: return "Let it run: a second paper would not pay.";
    case BathStep::fold_second_paper: return "Fold a second paper and share the rest between the two.";
    case BathStep::pour_alkali: return "Pour the alkali, slowly.";
    case BathStep::stir_and_read: return "Stir it warm for 10 to 15 minutes until the fizzing ends, then read the pH again.";
    case BathStep::pour_rest_by_drops: return "It is short of alkali: pour on, the last of it by drops, wait, and read.";
    case BathStep::add_aluminium: return "There is too much alkali in it: mend it with more alum, wait a quarter of an hour, and read.";
    case BathStep::look_at_the_salt:
        return "That pH cannot be, for what was poured: look at the packets (which soda, which alum), at the scale, at the pen.";
    case BathStep::settle_and_wash: return "Stop here. Let the lake sink, draw off the clear water, and wash.";
    case BathStep::let_it_sink: return "Let it sink until the blanket hardly falls any more, then draw off the clear water.";
    case BathStep::read_wash_water: return "Hold the pen into the wash water itself first: a decant says nothing without it.";
    case BathStep::wash_again: return "Wash again.";
    case BathStep::wash_with_pure_water: return "Wash with distilled or rain water: this water itself leaves too much.";
    case BathStep::drain_and_dry: return "It is washed. Drain it on paper and spread it to dry.";
    case BathStep::weigh_tomorrow: return "Weigh it again tomorrow at the same hour. No end can be told from fewer than three weighings, nor "
               "while it loses as much every day.";
    case BathStep::keep_drying: return "Keep it drying.";
    case BathStep::weigh_once_more:
        return "By now it should be dry: weigh it once more, and if it weighs what is told here, jar it.";
    case BathStep::break_the_cake: return "Its weight stands, but too high: it is damp inside. Break it up and spread it thinner.";
    case BathStep::jar_it: return "It is at rest: grind, sieve, weigh, and jar it.";
    case BathStep::in_its_jar: return "It is in its jar: what happens to it from here on goes into the record of the jar.";
    }
    return "";
}

const char* bath_doubt_words(BathDoubt doubt) noexcept {
    switch (doubt) {
    case BathDoubt::fizzing_reads_low: return "A bath that fizzes reads 1 to 2.5 units too low.";
    case BathDoubt::read_once: return "One reading does not say that the pH is at rest: read again in five minutes.";
    case BathDoubt::hydroxides_unknown:
        return "How much alkali this bath wants is known to some per cent only; the pH at rest decides.";
    case BathDoubt::salts_trapped: return "The washes carry away less than their volumes say: stir the bed up, or salt sits in the flocs.";
    case BathDoubt::salts_rose:
        return "The last decant holds no less than the one before: was it stirred up, and is each reading in its place?";
    case BathDoubt::gypsum_on_the_pen:
        return "A lake laid with chalk gives off gypsum for ever: no pen says when it is washed.";
    case BathDoubt::chalk_is_slow: return "Chalk works for hours: stir it up again, and see that it no longer fizzes.";
    case BathDoubt::water_unread: return "The wash water itself has not been read.";
    case BathDoubt::if_drained:
        return "The salts are those of a cake that drains on paper first: a bed left to dry whole keeps many times as much.";
    case BathDoubt::unlike_the_bath:
        return "The cake comes to rest far from what the bath lets expect: look at the tare, at losses, at which salt it was.";
    case BathDoubt::end_open: return "Where its weight will end is still wide open.";
    }
    return "";
}

const char* jar_remark_words(JarRemark remark) noexcept {
    switch (remark) {
    case JarRemark::still_wet: return "It was not at rest when it was weighed: it may grow mould, and its figures are not its own.";
    case JarRemark::stuck: return "Its weight stood too high: it is damp inside. Break it up and dry it before the lid goes on.";
    case JarRemark::chalk_laid: return "Laid with chalk it is another pigment: gypsum and chalk, not proof against acid.";
    case JarRemark::salts_unread: return "No pen was in the last water: what salts are in it is a guess.";
    case JarRemark::salts_for_paint: return "More salts than most paint bears: blooms, and pans that stay sticky. Wash it again.";
    case JarRemark::salts_for_oil: return "Clean enough for water; for oil and tubes it wants one wash more.";
    case JarRemark::hard_wash_water:
        return "The wash water itself leaves much of what is allowed: a last wash with distilled or rain water takes it out.";
    case JarRemark::alkaline: return "Alkaline in water: hues shift and oil turns to soap. Wash it again, or with a pinch of alum.";
    case JarRemark::benzoate_dead: return "At this pH sodium benzoate keeps nothing from mould: take another preservative.";
    case JarRemark::sorbate_dead: return "At this pH potassium sorbate keeps nothing from mould either.";
    case JarRemark::ph_unread: return "Its pH in water was not read: no telling which preservative works (--water-ph \"6.8, pen\").";
    case JarRemark::less_than_expected: return "Less than nine in ten such baths bring: lost on paper, or laid short of alkali.";
    case JarRemark::more_than_expected: return "More than nine in ten such baths bring: still damp, or salts and sulphate in it.";
    case JarRemark::moisture_unweighed: return "Most of the density's doubt is its water: dry a gram and weigh it (--moisture).";
    }
    return "";
}

std::string bath_happened_words(std::string_view what) {
    static constexpr std::pair<std::string_view, const char*> words[] = {
        {"filter", "at the filter"}, {"alum", "alum added"},     {"ph", "pH"},           {"foam", "foam stood"},
        {"colour", "colour left"},   {"wash-water", "wash water"}, {"jarred", "into the jar"}};
    for (const auto& [key, text] : words)
        if (key == what) return text;
    return std::string(what);
}

} // namespace lakebound
