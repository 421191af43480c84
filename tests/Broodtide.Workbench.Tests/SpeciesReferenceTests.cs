using Broodtide.Workbench.Species;

namespace Broodtide.Workbench.Tests;

/// <summary>The shipped profile against tests/reference/species.csv and development-times.csv.</summary>
public sealed class SpeciesReferenceTests
{
    private const string Own = "Caridina multidentata";

    // A row is told by its parameter and condition. Rows about another species are those the profile borrows.
    private static readonly Dictionary<
        (string Species, string Parameter, string Condition),
        string
    > Quantities = new()
    {
        [(Own, "embryo_degree_days_base0", "25.5 C")] = "embryo-degree-days",
        [(Own, "hatch_fraction", "eggs removed at last in-egg stage")] = "hatched-share-removed-late",
        [(Own, "hatch_fraction", "on female")] = "hatched-share-on-female",
        [(Own, "hatch_fraction", "eggs removed at cleavage")] = "hatched-share-removed-cleavage",
        [(Own, "embryo_temperature_above_which_ZI_to_ZII_moult_falls", "eggs incubated off female")] =
            "embryo-warmest-without-loss",
        [(Own, "eyed_egg_day", "home tanks")] = "eyed-egg-days",
        [(Own, "larvae_per_brood", "home estimate")] = "larvae-per-brood",
        [(Own, "larvae_per_brood", "other keeper")] = "larvae-per-brood",
        [(Own, "larvae_per_brood", "any size")] = "larvae-per-brood-recalled",
        [(Own, "freshwater_survival_days", "keeper")] = "larva-fresh-water-days",
        [(Own, "freshwater_survival_days", "died in fresh water")] = "larva-fresh-water-dead-days",
        [(Own, "unfed_ZI_moult_threshold", "20-32 C tested")] = "unfed-moult-salinity",
        [(Own, "zoea_stage_count", "")] = "zoea-stages",
        [(Own, "light_attraction_fades_stage", "")] = "light-attraction-fades",
        [(Own, "length_at_hatch", "")] = "larva-length-at-hatch",
        [(Own, "length_juvenile", "35 d after hatch")] = "juvenile-length-day-35",
        [(Own, "length_juvenile", "about 60 d")] = "juvenile-length-day-60",
        [(Own, "length_juvenile", "hatchery trial start")] = "juvenile-length-trial",
        [(Own, "weight_juvenile", "hatchery trial start")] = "juvenile-mass-trial",
        [(Own, "larval_salinity_range", "completes to juvenile")] = "larval-salinity",
        [(Own, "larval_salinity_optimum", "25 C")] = "larval-salinity-best",
        [(Own, "larval_salt_used", "home success")] = "larval-salt-used",
        [(Own, "larval_salt_used", "home, 23 C, no water change")] = "larval-salt-used",
        [(Own, "larval_salt_used", "home")] = "larval-salt-used",
        [(Own, "larval_temperature_tested", "")] = "larval-temperature",
        [(Own, "larval_temperature_losses_from", "home")] = "larval-temperature-losses",
        [(Own, "juvenile_to_adult", "")] = "juvenile-to-adult-days",
        [(Own, "age_at_maturity", "")] = "maturity-age",
        [(Own, "adult_length", "male")] = "adult-length-male",
        [(Own, "adult_length", "female")] = "adult-length-female",
        [(Own, "brood_interval", "summer")] = "brood-interval-days",
        [(Own, "lifespan", "")] = "lifespan",
        [(Own, "moults_per_year", "adult")] = "adult-moults-per-year",
        [("Macrobrachium rosenbergii", "hatch_nights_per_brood", "")] = "hatch-nights-per-brood",
        [("Macrobrachium rosenbergii", "egg_grey_before_hatch", "")] = "pale-lead-days",
        [("Macrobrachium rosenbergii", "larval_light", "diffuse")] = "larval-light",
        [("Macrobrachium rosenbergii", "larval_light_max", "")] = "larval-light-limit",
        [("Macrobrachium rosenbergii", "PL_freshwater_acclimation", "gradual flush in larval tank")] =
            "return-hours",
        [("Macrobrachium rosenbergii", "NO3N_long_term_max", "PL 24 d")] = "nitrate-nitrogen-limit",
        [("Macrobrachium rosenbergii", "dissolved_oxygen_min", "hatchery supply")] = "dissolved-oxygen-limit",
        [("Macrobrachium rosenbergii", "pH_range", "hatchery supply")] = "ph-limits",
        [("Macrobrachium carcinus", "TAN_safe", "larvae 20 ppt")] = "total-ammonia-nitrogen-limit",
        [("Macrobrachium carcinus", "NH3N_safe", "larvae 20 ppt")] = "ammonia-nitrogen-limit",
        [("Macrobrachium carcinus", "NO2N_safe", "larvae 20 ppt")] = "nitrite-nitrogen-limit",
        [("Caridina serratirostris", "larval_density_used", "2 L beakers 25 C")] = "larvae-per-litre",
        [("Caridina villadolidi", "algae_density_ok", "Tetraselmis chui")] = "tetraselmis-cells",
    };

    // Rows that are no single number of a quantity; each is checked by the test named.
    private static readonly HashSet<(string Parameter, string Condition)> Elsewhere =
    [
        // "none found": the profile is silent.
        ("fecundity_regression", ""),
        // The_words_of_the_reference_are_facts_of_the_profile
        ("hatch_time_of_day", ""),
        ("sexing", "second spot row: round = male, dashes = female"),
        // The_dilutions_of_the_reference_are_three_quantities
        ("dilution_steps", "after most settled, partial changes"),
        // The_signs_of_the_stages_are_those_of_the_reference
        ("tail_setae_stage_1", "microscope"),
        ("tail_setae_stage_2", "microscope"),
        ("eyes_stalked_from_stage", "microscope"),
    ];

    // Limits that follow from rows, or from advice in words: SpeciesLimitsTests; the alkalinity: ReturningTests.
    private static readonly HashSet<string> ElsewhereBorrowed =
    [
        "ammonia-nitrogen-limit-middle",
        "ammonia-nitrogen-limit-late",
        "ammonia-nitrogen-limit-settled",
        "juvenile-alkalinity-limit",
        "nitrite-nitrogen-limit-middle",
        "nitrite-nitrogen-limit-late",
        "ph-danger",
    ];

    private static readonly Dictionary<string, string> Units = new(StringComparer.Ordinal)
    {
        ["degree-day"] = "Cel.d",
        ["fraction"] = "1",
        ["C"] = "Cel",
        ["day"] = "d",
        ["night"] = "d",
        ["h"] = "h",
        ["month"] = "mo",
        ["year"] = "a",
        ["count"] = "{count}",
        ["stage"] = "{stage}",
        ["ppt"] = "{practical}",
        ["g/L"] = "g{mix}/L",
        ["mg N/L"] = "mg/L",
        ["mg/L"] = "mg/L",
        ["pH"] = "[pH]",
        ["mm"] = "mm",
        ["mg"] = "mg",
        ["lux"] = "lx",
        ["per L"] = "/L",
        ["cells/mL"] = "{cells}/mL",
    };

    private static SpeciesProfile Profile => SpeciesProfiles.Reference;

    [Fact]
    public void Every_row_of_the_reference_for_the_species_is_in_the_profile_with_its_figures()
    {
        var rows = SpeciesFiles.Rows("species.csv").Where(row => row["species"] == Own).ToList();
        Assert.Equal(43, rows.Count);
        foreach (var row in rows)
        {
            if (!Elsewhere.Contains((row["parameter"], row["condition"])))
            {
                AssertStands(row);
            }
        }
    }

    [Fact]
    public void Every_borrowed_figure_is_that_of_the_reference_and_names_its_species()
    {
        var rows = SpeciesFiles.Rows("species.csv");
        foreach (
            var ((species, parameter, condition), code) in Quantities.Where(pair => pair.Key.Species != Own)
        )
        {
            var row = Assert.Single(
                rows,
                row => (row["species"], row["parameter"], row["condition"]) == (species, parameter, condition)
            );
            AssertStands(row);
            Assert.Equal(Provenance.Borrowed, Profile.Quantity(code).Provenance);
            Assert.Equal(species, Profile.Quantity(code).BorrowedFrom);
        }
    }

    [Fact]
    public void No_borrowed_figure_lacks_a_row_of_the_reference() =>
        Assert.All(
            Profile.Quantities.Where(quantity =>
                quantity.Provenance == Provenance.Borrowed && !ElsewhereBorrowed.Contains(quantity.Code)
            ),
            quantity => Assert.Contains(quantity.Code, Quantities.Values)
        );

    [Fact]
    public void The_development_times_of_the_reference_are_in_the_profile()
    {
        var rows = SpeciesFiles.Rows("development-times.csv").Where(row => row["species"] == Own).ToList();
        Assert.Equal(13, rows.Count);
        foreach (var row in rows)
        {
            var (days, low, high) = Figures(row, "days_mean", "days_low", "days_high");
            if (row["temperature_C"] == "25.5")
            {
                Assert.Equal(days!.Value, Profile.EmbryoThermal.ReferenceDays!.Value, 12);
                Assert.Equal(25.5, Profile.EmbryoThermal.ReferenceTemperature.Celsius);
                continue;
            }

            var code = row["phase"] switch
            {
                "embryo" => "embryo-days",
                "zoea-total" => "larval-days",
                "postlarva" => "juvenile-to-adult-days",
                _ => "embryo-late-days",
            };
            AssertReported(Profile.Quantity(code), days, low, high);
        }
    }

    [Fact]
    public void The_span_of_reports_is_that_of_the_reports_listed()
    {
        foreach (var quantity in Profile.Quantities.Where(q => q.Bounds == ProfileBounds.Reports))
        {
            double[] numbers =
            [
                .. quantity
                    .Reports.SelectMany(r => new[] { r.Amount.Value, r.Amount.Low, r.Amount.High })
                    .OfType<double>(),
            ];
            Assert.Equal(numbers.Min(), quantity.Low);
            Assert.Equal(numbers.Max(), quantity.High);
        }
    }

    [Fact]
    public void The_words_of_the_reference_are_facts_of_the_profile()
    {
        Assert.Equal("night", Profile.Fact("hatch-time-of-day")?.Is);
        Assert.Equal("round", Profile.Fact("second-spot-row-male")?.Is);
        Assert.Equal("dashes", Profile.Fact("second-spot-row-female")?.Is);
        Assert.All(
            ["hatch-time-of-day", "second-spot-row-male", "second-spot-row-female"],
            code => Assert.Equal(Provenance.Practice, Profile.Fact(code)?.Provenance)
        );
        Assert.Equal(Provenance.Measured, Profile.Fact("unfed-first-moult")?.Provenance);
    }

    [Fact]
    public void The_dilutions_of_the_reference_are_three_quantities()
    {
        var row = Assert.Single(
            SpeciesFiles.Rows("species.csv"),
            row => row["species"] == Own && row["parameter"] == "dilution_steps"
        );
        double[] salts = [.. row["value"].Split('>').Select(part => SpeciesFiles.Number(part)!.Value)];
        Assert.Equal(salts[0], Profile.Quantity("return-first-salt").Value);
        Assert.Equal(salts[^1], Profile.Quantity("return-last-salt").Value);
        Assert.All(
            salts.Zip(salts.Skip(1)),
            pair => Assert.Equal(pair.First - pair.Second, Profile.Quantity("return-salt-step").Value)
        );
    }

    [Fact]
    public void The_signs_of_the_stages_are_those_of_the_reference()
    {
        var rows = SpeciesFiles.Rows("species.csv").Where(row => row["species"] == Own).ToList();
        double? Of(string parameter) =>
            SpeciesFiles.Number(rows.Single(r => r["parameter"] == parameter)["value"]);
        StageSign Sign(int order, string code) =>
            Profile.Stages.Single(s => s.Order == order).Signs.Single(s => s.Code == code);

        Assert.Equal(Of("tail_setae_stage_1"), Sign(1, "tail-setae").Count);
        Assert.Equal(Of("tail_setae_stage_2"), Sign(2, "tail-setae").Count);
        Assert.NotNull(Sign((int)Of("eyes_stalked_from_stage")!, "eyes-stalked"));
        Assert.Equal(
            SignTiming.About,
            Sign((int)Of("light_attraction_fades_stage")!, "light-attraction-fades").When
        );
        // Stages IV, V and IX of Macrobrachium lar: Lal, Seeto, Pickering 2014, SpringerPlus 3:568, table 4.
        Assert.All(
            new[]
            {
                (4, "tail-fan-inner-branches"),
                (5, "tail-plate-rectangle"),
                (9, "pleopods-with-bristles"),
            },
            told => Assert.Equal(Provenance.Borrowed, Sign(told.Item1, told.Item2).Provenance)
        );
        Assert.Equal(
            ["Z1", "Z2", "Z3", "Z4", "Z5", "Z6", "Z7", "Z8", "Z9", "PL"],
            Profile.Stages.Select(stage => stage.Code)
        );
        Assert.Equal(Of("zoea_stage_count"), Profile.Stages.Count(stage => stage.Code != "PL"));
    }

    private static void AssertStands(IReadOnlyDictionary<string, string> row)
    {
        Assert.True(
            Quantities.TryGetValue((row["species"], row["parameter"], row["condition"]), out var code),
            $"{row["parameter"]} ({row["condition"]}) has no place in the profile."
        );
        var quantity = Profile.Quantity(code);
        if (code is "adult-moults-per-year")
        {
            Assert.Equal("/a", quantity.Unit.Code);
        }
        else
        {
            Assert.Equal(Units[row["unit"]], quantity.Unit.Code);
        }

        var (value, low, high) = Figures(row, "value", "low", "high");
        if (code.EndsWith("-limit", StringComparison.Ordinal))
        {
            // A limit is an end, not a middle.
            Assert.Equal(value, code == "dissolved-oxygen-limit" ? quantity.Low : quantity.High);
            Assert.Null(quantity.Value);
        }
        else
        {
            AssertReported(quantity, value, low, high);
        }

        AssertProvenance(row, quantity);
    }

    private static void AssertReported(ProfileQuantity quantity, double? value, double? low, double? high)
    {
        // The reference writes a span whose ends are equal, and one end alone, as they are.
        var wanted = ProfileAmount.FromParts(value, low, high);
        Assert.Contains(wanted, quantity.Reports.Select(report => report.Amount).Append(quantity.Original));
    }

    private static void AssertProvenance(IReadOnlyDictionary<string, string> row, ProfileQuantity quantity)
    {
        if (row["species"] != Own)
        {
            Assert.Equal(Provenance.Borrowed, quantity.Provenance);
            return;
        }

        switch (row["provenance"])
        {
            case "read":
                Assert.Equal(Provenance.Measured, quantity.Provenance);
                Assert.Null(quantity.CitedIn);
                break;
            case "practice":
                Assert.Equal(Provenance.Practice, quantity.Provenance);
                break;
            case "memory":
                Assert.Equal(Provenance.Memory, quantity.Provenance);
                break;
            default:
                // Seen only in a work that cites it: said so, or weakened to practice.
                Assert.True(quantity.CitedIn is not null || quantity.Provenance == Provenance.Practice);
                break;
        }
    }

    private static (double? Value, double? Low, double? High) Figures(
        IReadOnlyDictionary<string, string> row,
        string value,
        string low,
        string high
    ) => (SpeciesFiles.Number(row[value]), SpeciesFiles.Number(row[low]), SpeciesFiles.Number(row[high]));
}
