using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Domain.Journal;
using Broodtide.Science.Food;
using Broodtide.Units;

namespace Broodtide.Cli.Feeding;

/// <summary>The arithmetic of food.</summary>
internal static class FoodVerb
{
    public static Command Make()
    {
        var food = new Command(
            "food",
            "Food: cells counted, media, rations, live food, and how much culture it takes."
        );
        food.Subcommands.Add(CountCellsVerb.Make());
        food.Subcommands.Add(MediumVerb.Make());
        food.Subcommands.Add(ScaleUpVerb.Make());
        food.Subcommands.Add(LiveFoodVerb.Make());
        food.Subcommands.Add(RationVerb.Make());
        food.Subcommands.Add(EqualVerb.Make());
        return food;
    }
}

/// <summary>Reads what several verbs of food ask for.</summary>
internal static class FoodText
{
    public static string Algae => string.Join(", ", AlgaKind.All.Select(alga => alga.Code));

    /// <summary>An alga by its name; what is wrong is gathered.</summary>
    public static AlgaKind? Alga(Said said, Slot slot)
    {
        if (said.Text(slot) is not { } text)
        {
            return null;
        }

        if (AlgaKind.Find(text) is { } alga)
        {
            return alga;
        }

        said.Add(
            new Remark(
                "word-not-on-the-list",
                new("field", slot.Name),
                new("typed", text),
                new("allowed", Algae)
            )
        );
        return null;
    }

    public static CellDensity? Cells(Said said, Slot slot) =>
        said.Text(slot) is { } text ? Cells(said, text, slot.Name) : null;

    /// <summary>Cells per mL; a negative or impossible number is told.</summary>
    public static CellDensity? Cells(Said said, string text, string field)
    {
        if (said.AmountOf(text, field, [Dimension.CellDensity], UnitCode.CellsPerMillilitre) is not { } typed)
        {
            return null;
        }

        if (typed.Value is >= 0 and <= 1e12)
        {
            return CellDensity.FromPerMillilitre(typed.Value);
        }

        said.Add(Impossible(field, typed.Typed, 1e12));
        return null;
    }

    public static Volume? Volume(Said said, Slot slot) =>
        said.Text(slot) is { } text ? Volume(said, text, slot.Name) : null;

    public static Volume? Volume(Said said, string text, string field)
    {
        var typed = said.AmountOf(text, field, [Dimension.Volume]);
        if (typed is not null && typed.AsVolume() is null)
        {
            said.Add(Impossible(field, typed.Typed, 1e12));
        }

        return typed.AsVolume();
    }

    public static Mass? Mass(Said said, Slot slot)
    {
        var typed = said.Amount(slot, Dimension.Mass);
        if (typed is not null && typed.AsMass() is null)
        {
            said.Add(Impossible(slot.Name, typed.Typed, 1e12));
        }

        return typed.AsMass();
    }

    /// <summary>A share from a percentage between two bounds; none where it was not said.</summary>
    public static double? Share(Said said, Slot slot, double lowest, double highest)
    {
        if (said.Amount(slot, Dimension.Share, "%") is not { } typed)
        {
            return null;
        }

        if (typed.Value >= lowest && typed.Value <= highest)
        {
            return typed.Value / 100;
        }

        said.Add(Impossible(slot.Name, typed.Typed, highest, lowest));
        return null;
    }

    /// <summary>A plain number between two bounds; none where it was not said.</summary>
    public static double? Number(Said said, Slot slot, double lowest, double highest)
    {
        if (said.Number(slot) is not { } number)
        {
            return null;
        }

        if (number >= lowest && number <= highest)
        {
            return number;
        }

        said.Add(Impossible(slot.Name, said.TheText(slot), highest, lowest));
        return null;
    }

    public static Remark Impossible(string field, string typed, double highest, double lowest = 0) =>
        new(
            "number-impossible",
            new("field", field),
            new("typed", typed),
            new("lowest", lowest),
            new("highest", highest)
        );

    /// <summary>Three figures: more than any count knows.</summary>
    public static string Cells(double perMillilitre)
    {
        if (perMillilitre < 1e5)
        {
            return Saying.Number(Rounded(perMillilitre));
        }

        var tens = Math.Floor(Math.Log10(perMillilitre));
        var figures = Saying.Number(Math.Round(perMillilitre / Math.Pow(10, tens), 2));
        return $"{figures}e{tens.ToString("0", System.Globalization.CultureInfo.InvariantCulture)}";
    }

    public static string Cells(Interval points) =>
        $"{Cells(points.Middle)} cells/mL ({Cells(points.Low)} to {Cells(points.High)})";

    public static double Rounded(double number)
    {
        if (number == 0)
        {
            return 0;
        }

        var last = Math.Pow(10, Math.Floor(Math.Log10(Math.Abs(number))) - 2);
        return Math.Round(number / last) * last;
    }

    public static void Print(Page page, IEnumerable<Remark> remarks, Saying saying)
    {
        foreach (var remark in remarks)
        {
            page.Line(saying.Of(remark));
        }
    }
}
