using System.Collections.Immutable;

namespace Broodtide.Workbench.Species;

/// <summary>The rows of <c>quantities</c>: each one by itself, then what they must be together.</summary>
internal static class ProfileQuantityReader
{
    private const string Place = "$.quantities";

    internal static ImmutableArray<ProfileQuantity> Read(ProfileCheck check, QuantityRow?[]? rows)
    {
        var quantities = check.Rows(rows, Place, (row, at) => Quantity(check, row, at));
        if (check.Fault is not null)
        {
            return [];
        }

        check.Unique(quantities.Select(quantity => quantity.Code), Place);
        foreach (var required in QuantityCodes.Required)
        {
            Demand(check, quantities, required);
        }

        return check.Fault is null ? PublishedRanges(check, rows!, quantities) : [];
    }

    private static ProfileQuantity Quantity(ProfileCheck check, QuantityRow row, string at)
    {
        var code = check.Code(row.Code, $"{at}.code");
        var unit = ProfileUnit.Find(row.Unit);
        if (unit is null)
        {
            check.Say(
                row.Unit is null ? ProfileFaultCodes.Missing : ProfileFaultCodes.NotAllowed,
                $"{at}.unit",
                row.Unit,
                [.. ProfileUnit.All.Select(known => known.Code)]
            );
            unit = ProfileUnit.All[0];
        }

        var amount = check.Amount(unit, row.Value, row.Low, row.High, at);
        var provenance = check.Provenance(row.Provenance, at);
        return new()
        {
            Code = code,
            Unit = unit,
            Original = amount,
            Published = amount,
            Bounds = BoundsOf(check, row, at),
            Meaning = check.Text(row.Meaning, $"{at}.meaning"),
            Provenance = provenance,
            BorrowedFrom = check.BorrowedFrom(provenance, row.BorrowedFrom, at),
            Source = check.Text(row.Source, $"{at}.source"),
            CitedIn = check.TextOrNone(row.CitedIn, $"{at}.citedIn"),
            Note = check.TextOrNone(row.Note, $"{at}.note"),
            Reports = ReportsOf(check, unit, row, at),
        };
    }

    // Bounds are told exactly where there is a low or a high.
    private static ProfileBounds BoundsOf(ProfileCheck check, QuantityRow row, string at)
    {
        var hasEnds = row.Low is not null || row.High is not null;
        if (hasEnds)
        {
            return check.Word(row.Bounds, $"{at}.bounds", ProfileWords.Bounds);
        }

        if (row.Bounds is not null)
        {
            check.Say(ProfileFaultCodes.NotExpected, $"{at}.bounds", row.Bounds);
        }

        return ProfileBounds.None;
    }

    private static ImmutableArray<ProfileReport> ReportsOf(
        ProfileCheck check,
        ProfileUnit unit,
        QuantityRow row,
        string at
    )
    {
        if (row.Reports is null && row.Bounds != "reports")
        {
            return [];
        }

        return check.Rows(
            row.Reports,
            $"{at}.reports",
            (report, place) =>
                new ProfileReport(
                    check.Amount(unit, report.Value, report.Low, report.High, place),
                    check.TextOrNone(report.Condition, $"{place}.condition"),
                    check.Provenance(report.Provenance, place),
                    check.Text(report.Source, $"{place}.source")
                )
        );
    }

    private static void Demand(
        ProfileCheck check,
        ImmutableArray<ProfileQuantity> quantities,
        RequiredQuantity required
    )
    {
        var i = IndexOf(quantities, required.Code);
        if (i < 0)
        {
            check.Say(ProfileFaultCodes.Missing, Place, "", required.Code);
            return;
        }

        var quantity = quantities[i];
        if (!string.Equals(quantity.Unit.Code, required.Unit, StringComparison.Ordinal))
        {
            check.Say(ProfileFaultCodes.NotAllowed, $"{Place}[{i}].unit", quantity.Unit.Code, required.Unit);
        }

        foreach (var part in required.Parts.Split(' '))
        {
            var number = part switch
            {
                "value" => quantity.Original.Value,
                "low" => quantity.Original.Low,
                _ => quantity.Original.High,
            };
            if (number is null)
            {
                check.Say(ProfileFaultCodes.Missing, $"{Place}[{i}].{part}", "");
            }
        }
    }

    private static ImmutableArray<ProfileQuantity> PublishedRanges(
        ProfileCheck check,
        QuantityRow?[] rows,
        ImmutableArray<ProfileQuantity> quantities
    )
    {
        var result = quantities.ToBuilder();
        for (var i = 0; i < quantities.Length; i++)
        {
            if (rows[i]?.PublishedRange is not { } code)
            {
                continue;
            }

            var j = IndexOf(quantities, code);
            if (j < 0 || quantities[j].Unit != quantities[i].Unit)
            {
                check.Say(ProfileFaultCodes.NotAllowed, $"{Place}[{i}].publishedRange", code);
                continue;
            }

            result[i] = quantities[i] with { Published = quantities[j].Original };
        }

        return result.ToImmutable();
    }

    private static int IndexOf(ImmutableArray<ProfileQuantity> quantities, string code)
    {
        for (var i = 0; i < quantities.Length; i++)
        {
            if (string.Equals(quantities[i].Code, code, StringComparison.Ordinal))
            {
                return i;
            }
        }

        return -1;
    }
}
