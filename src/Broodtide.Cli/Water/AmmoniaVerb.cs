using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Species;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Units;
using Broodtide.Workbench.Mixing;
using Broodtide.Workbench.Safety;
using Broodtide.Workbench.Species;

namespace Broodtide.Cli.Water;

/// <summary>What an amount of ammonia means, for machines.</summary>
internal sealed record AmmoniaAnswer(
    string PhScale,
    double TotalMilligramsNitrogenPerLitre,
    double UnionisedPercent,
    double UnionisedLowMilligramsNitrogenPerLitre,
    double UnionisedMilligramsNitrogenPerLitre,
    double UnionisedHighMilligramsNitrogenPerLitre,
    double UnionisedMilligramsAmmoniaPerLitre,
    double LimitMilligramsNitrogenPerLitre,
    bool WithinPublishedRange
);

/// <summary>The part of ammonia that poisons.</summary>
internal static class AmmoniaVerb
{
    public static Command Make()
    {
        var amount = Slot.Word("AMOUNT", "How much, said as what: TAN (as N), NH4, NH3-N or NH3.");
        var ph = Slot.Option("--ph", "pH of the water as the meter shows it.", "PH");
        var temperature = Slot.Option("--temperature", "Its temperature.", "TEMPERATURE");
        var salinity = Slot.Option("--salinity", "Its salinity; fresh if left out.", "SALINITY");
        var scale = Slot.Option(
            "--ph-scale",
            $"Scale of the meter's buffers, {EnumWords.All<AcidityScale>()}; ordinary ones are nbs.",
            "SCALE"
        );
        var species = SpeciesSlot.Make();
        return new VerbCommand(
            "ammonia",
            "How much of the ammonia poisons: the un-ionised part, by pH, temperature and salinity, as nitrogen and as NH3.",
            [
                "water ammonia \"0.5 TAN\" --ph 8.1 --temperature 25C --salinity \"30 ppt\"",
                "water ammonia \"1 NH4\" --ph 7.6 --temperature 24C --json",
            ],
            [amount, ph, temperature, salinity, scale, species],
            async sitting =>
            {
                var look = await sitting.LookAsync();
                var said = new Said(sitting, look.House);
                var profile = SpeciesSlot.Read(said, species, look.Profiles);
                var typed = said.Amount(amount, [Dimension.TotalAmmonia, Dimension.UnionisedAmmonia]);
                var shown = said.Amount(ph, Dimension.Acidity, "[pH]");
                var warmth = said.Degrees(temperature);
                var buffers = said.Member<AcidityScale>(scale) ?? AcidityScale.Nbs;
                var salt = said.Salinity(salinity) is { } given
                    ? WaterText.Salinity(
                        said,
                        given,
                        salinity.Name,
                        warmth ?? Temperature.FromCelsius(25),
                        SaltProduct.Unmeasured
                    ) ?? default
                    : default;
                if (said.Wrong.Count == 0 && (shown is null || warmth is null))
                {
                    said.Add(new Remark("ammonia-needs-ph-and-warmth"));
                }

                if (shown is { Value: < 0 or > 14 })
                {
                    said.Add(
                        new Remark(
                            "number-impossible",
                            new("field", ph.Name),
                            new("typed", shown.Typed),
                            new("lowest", 0.0),
                            new("highest", 14.0)
                        )
                    );
                }

                if (
                    said.Wrong.Count > 0
                    || typed is null
                    || shown is null
                    || warmth is not { } warm
                    || AmmoniaReading.Of(typed) is not { } reading
                )
                {
                    return sitting.NotUnderstood(said.Wrong);
                }

                var meaning = AmmoniaMeaning.Of(reading, new(shown.Value, buffers, salt, warm));
                var limit = profile
                    .LimitsFor(LifeStage.EarlyZoea)
                    .First(it => it.Quantity is LimitedQuantity.UnionisedAmmonia);
                var poison = meaning.UnionisedNitrogenMilligramsPerLitre;
                return sitting.Answer(
                    new AmmoniaAnswer(
                        EnumWords.Of(buffers),
                        meaning.TotalNitrogen.MilligramsPerLitre,
                        meaning.UnionisedShare.Percent,
                        poison.Low,
                        poison.Middle,
                        poison.High,
                        meaning.UnionisedAmmonia.MilligramsPerLitre,
                        limit.Value,
                        meaning.WithinPublishedRange
                    ),
                    CliJson.Default.AmmoniaAnswer,
                    page => Print(page, meaning, limit)
                );
            }
        );
    }

    private static void Print(Page page, AmmoniaMeaning meaning, LifeLimit limit)
    {
        var poison = meaning.UnionisedNitrogenMilligramsPerLitre;
        page.Facts(
            ("In all", $"{Figure(meaning.TotalNitrogen.MilligramsPerLitre)} mg/L as nitrogen (TAN)"),
            ("Of it un-ionised", $"{Figure(meaning.UnionisedShare.Percent)} %"),
            (
                "That poisons",
                $"{Figure(poison.Middle)} mg/L NH3-N ({Figure(poison.Low)} to {Figure(poison.High)})"
            ),
            ("The same as NH3", $"{Figure(meaning.UnionisedAmmonia.MilligramsPerLitre)} mg/L"),
            ("Safe for young larvae", $"up to {Figure(limit.Value)} mg/L NH3-N ({From(limit.From)})"),
            ("Salinity and warmth", meaning.WithinPublishedRange ? null : "outside what was measured")
        );
    }

    private static string From(ProfileQuantity quantity) =>
        quantity.Chosen is not null ? "yours"
        : quantity.BorrowedFrom is { } relative ? $"borrowed from {relative}"
        : EnumWords.Plain(quantity.Provenance);

    private static string Figure(double value) =>
        value.ToString("G3", System.Globalization.CultureInfo.InvariantCulture);
}
