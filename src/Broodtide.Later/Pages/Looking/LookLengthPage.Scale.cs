using System.Globalization;
using Broodtide.Domain.Larvae;
using Broodtide.Phone.Looking;
using Broodtide.Science.Imaging.Lengths;
using Broodtide.Units;

namespace Broodtide.Phone.Pages.Looking;

/// <summary>The scale: by the ticks of a ruler, by two marks or by a number.</summary>
public sealed partial class LookLengthPage
{
    // Micrometres: of a ruler and of two marks it is typed in millimetres.
    private double? Distance =>
        double.TryParse(
            _distance.Trim().Replace(',', '.'),
            NumberStyles.AllowDecimalPoint,
            CultureInfo.InvariantCulture,
            out var typed
        ) && typed is > 0 and < 10_000
            ? typed * (_way == ScaleBy.Number ? 1 : 1_000)
            : null;

    private double TapPixels => TapOfSide * Math.Max(_picture!.Shape.Across, _picture.Shape.Down);

    private void Take(ScaleBy way)
    {
        (_way, _refused) = (way, null);
        _taps.Clear();
    }

    private void TakeNumber() =>
        (_scale, _scaledShape) = (
            Distance is { } number
                ? Interval.FromPoints(number * (1 - SaidToShare), number, number * (1 + SaidToShare))
                : null,
            null
        );

    private Task ReadScale() =>
        Work(async cancel =>
        {
            if (await Open() && _way == ScaleBy.Ruler)
            {
                Scaled(
                    await Slicer.Last(
                        RulerScale.Steps(_picture!.ToGrey(), _picture.Shape, Distance!.Value),
                        cancel
                    )
                );
            }
        });

    private void TapScaled(BoardTap tap)
    {
        if (_way != ScaleBy.Taps || Distance is not { } apart)
        {
            return;
        }

        if (_taps.Count >= 2)
        {
            _taps.Clear();
        }

        _taps.Add((tap.X, tap.Y));
        if (_taps is [var from, var to])
        {
            Scaled(TapScale.Between(new(from.X, from.Y, to.X, to.Y), apart, TapPixels));
        }
    }

    private void Scaled(Parsed<ScaleFound>? found)
    {
        _refused = found?.Reason;
        if (found is not { Succeeded: true } || _picture is null)
        {
            return;
        }

        // A pixel of the whole is a part of one of these.
        _scale = found.Value.MicrometresPerPixel.Scaled(1 / _picture.Reduced);
        (_scaledShape, _ticks) = (_picture.Whole, found.Value.Marks);
        _taps.Clear();
    }

    private void AnotherScale()
    {
        Another();
        (_scale, _scaledShape, _refused) = (null, null, null);
        _taps.Clear();
    }
}
