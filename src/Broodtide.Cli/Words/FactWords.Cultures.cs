using Broodtide.Cli.Door;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;

namespace Broodtide.Cli.Words;

internal sealed partial class FactWords
{
    private string?[]? Cultures(Fact fact) =>
        fact switch
        {
            FeedDescribed f =>
            [
                $"feed {f.Name}: {EnumWords.Plain(f.Food)}",
                f.Protein is { } protein ? $"{Typed(protein)} protein" : null,
                f.Moisture is { } moisture ? $"{Typed(moisture)} moisture" : null,
                f.Ash is { } ash ? $"{Typed(ash)} ash" : null,
                f.Note,
            ],
            CultureDescribed c =>
            [
                $"{EnumWords.Plain(c.Alga)} grows in {Name(c.Vessel)}",
                c.Name,
                c.Medium is { } medium ? $"medium {EnumWords.Plain(medium)}" : null,
                c.MediumStrength is { } strength ? $"{Saying.Number(strength)} times its strength" : null,
                c.Started is { } started ? $"started {saying.Time(started)}" : null,
                c.Inoculum is { } inoculum ? $"from {Typed(inoculum)} of starter" : null,
                c.InoculumDensity is { } density ? Typed(density) : null,
                c.From is { } from ? $"of {Name(from)}" : null,
            ],
            CultureHarvested h =>
            [
                $"{(h.Volume is { } volume ? Typed(volume) : "some")} harvested from {Name(h.Vessel)}",
                h.Density is { } density ? Typed(density) : null,
                h.Note,
            ],
            CellsCounted c =>
            [
                $"cells of {Name(c.Vessel)} counted in {EnumWords.Plain(c.Chamber)}",
                string.Join(
                    " + ",
                    c.Squares.Select(s => s.Number is { } n ? $"{s.Cells}/{n}" : $"{s.Cells}")
                ),
                c.Dilution is { } dilution ? $"diluted {Saying.Number(dilution)} times" : null,
                c.SquareVolume is { } square ? $"squares of {Typed(square)}" : null,
            ],
            VesselLookedAt l =>
            [
                $"{Name(l.Vessel)} looked at",
                l.Water is { } water ? $"water {EnumWords.Plain(water)}" : null,
                l.Film is { } film ? $"film {EnumWords.Plain(film)}" : null,
            ],
            _ => null,
        };
}
