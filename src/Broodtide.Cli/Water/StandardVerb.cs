using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Domain.Journal;
using Broodtide.Workbench.Mixing;

namespace Broodtide.Cli.Water;

/// <summary>A standard solution.</summary>
internal sealed record StandardAnswer(double SodiumChlorideGrams, double PureWaterGrams);

/// <summary>Makes the 35 ppt standard for refractometers.</summary>
internal static class StandardVerb
{
    public static Command Make()
    {
        var mass = Slot.Word("MASS", "How much solution, such as 200g.");
        return new VerbCommand(
            "standard",
            "A solution that a refractometer must show as 35 ppt: plain sodium chloride, for refractometers only.",
            ["water standard 200g"],
            [mass],
            async sitting =>
            {
                var said = new Said(sitting, (await sitting.LookAsync()).House);
                var typed = said.TheAmount(mass, Dimension.Mass);
                if (said.Wrong.Count > 0 || ((TypedNumber?)typed).AsMass() is not { } total)
                {
                    return sitting.NotUnderstood(Complaints.Of(said, typed));
                }

                var standard = RefractometerStandard.Of35(total);
                return sitting.Answer(
                    new StandardAnswer(standard.DrySodiumChloride.Grams, standard.Water.Grams),
                    CliJson.Default.StandardAnswer,
                    page =>
                        page.Facts(
                                (
                                    "Dry sodium chloride",
                                    $"{Saying.Number(standard.DrySodiumChloride.Grams)} g, without iodine or anti-caking"
                                ),
                                ("Pure water", $"{Saying.Number(standard.Water.Grams)} g")
                            )
                            .Line(
                                "For a refractometer alone: a hydrometer or a conductivity meter shows it otherwise."
                            )
                );
            }
        );
    }
}
