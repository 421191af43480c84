using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Science.Water;
using Broodtide.Units;
using Broodtide.Workbench.Mixing;

namespace Broodtide.Cli.Water;

/// <summary>Osmolality, for machines.</summary>
internal sealed record OsmolalityAnswer(
    double MillimolesPerKilogram,
    double SalinityPpt,
    bool WithinPublishedRange
);

/// <summary>What an osmometer would show.</summary>
internal static class OsmolalityVerb
{
    public static Command Make()
    {
        var salinity = Slot.Word("SALINITY", "Salinity of the water, on any scale.");
        var temperature = Slot.Option(
            "--temperature",
            "Its temperature; 25 degC if left out.",
            "TEMPERATURE"
        );
        return new VerbCommand(
            "osmolality",
            "What an osmometer shows for a salinity: an aid to compare water with the blood of animals and with papers.",
            ["water osmolality \"17 ppt\"", "water osmolality 30 --temperature 24C --json"],
            [salinity, temperature],
            async sitting =>
            {
                var said = new Said(sitting, (await sitting.LookAsync()).House);
                var warm = said.Degrees(temperature) ?? Temperature.FromCelsius(25);
                var salt = said.Salinity(salinity) is { } given
                    ? WaterText.Salinity(said, given, salinity.Name, warm, SaltProduct.Unmeasured) ?? default
                    : default;
                if (said.Wrong.Count == 0 && salt.Practical is < 0.5 or > 50)
                {
                    said.Add(
                        new Remark(
                            "number-impossible",
                            new("field", salinity.Name),
                            new("typed", said.TheText(salinity)),
                            new("lowest", 0.5),
                            new("highest", 50.0)
                        )
                    );
                }

                if (said.Wrong.Count > 0)
                {
                    return sitting.NotUnderstood(said.Wrong);
                }

                var shown = Osmolality.MillimolesPerKilogramOfWater(salt, warm);
                return sitting.Answer(
                    new OsmolalityAnswer(shown.Value, salt.Practical, shown.WithinPublishedRange),
                    CliJson.Default.OsmolalityAnswer,
                    page =>
                        page.Facts(
                            ("Osmolality", $"{Math.Round(shown.Value)} mOsm per kg of water"),
                            ("Salinity", $"{Saying.Number(salt.Practical)} ppt"),
                            ("Doubt", shown.WithinPublishedRange ? null : "outside what was measured")
                        )
                );
            }
        );
    }
}
