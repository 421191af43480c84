namespace Broodtide.Science.Waste;

/// <summary>
/// One step of a system in which matter only moves: from stock to stock, in from outside, or out. Every flow is a
/// rate, 1/d, times the stock it leaves. The scheme is the modified Patankar Runge-Kutta scheme of second order
/// (Burchard, Deleersnijder and Meister 2003, Appl. Numer. Math. 47:1): no stock turns negative and what leaves one
/// arrives in another, at any length of step.
/// </summary>
internal static class TransferStep
{
    /// <summary>Rates of a state: from the row to the column, 1/d; the column behind the last stock is outside.</summary>
    /// <param name="stocks">What each stock holds.</param>
    /// <param name="rates">To be filled: stocks x (stocks + 1), zero before.</param>
    internal delegate void Rates(ReadOnlySpan<double> stocks, Span<double> rates);

    /// <summary>Moves the stocks on.</summary>
    /// <param name="stocks">What each holds, 0 or more; afterwards what it holds at the end.</param>
    /// <param name="supply">What comes to each from outside, a day, 0 or more.</param>
    /// <param name="rates">The rates of a state.</param>
    /// <param name="days">Length of the step.</param>
    internal static void Take(Span<double> stocks, ReadOnlySpan<double> supply, Rates rates, double days)
    {
        var count = stocks.Length;
        Span<double> atStart = stackalloc double[count * (count + 1)];
        Span<double> atEnd = stackalloc double[count * (count + 1)];
        Span<double> first = stackalloc double[count];
        atStart.Clear();
        rates(stocks, atStart);
        Solve(stocks, supply, atStart, days, first);

        atEnd.Clear();
        rates(first, atEnd);
        for (var from = 0; from < count; from++)
        {
            // The mean of both flows, as a rate of the stock that the first try gave.
            var weight = first[from] > 0 ? stocks[from] / first[from] : 1;
            for (var to = 0; to <= count; to++)
            {
                var at = (from * (count + 1)) + to;
                atEnd[at] = 0.5 * ((atStart[at] * weight) + atEnd[at]);
            }
        }

        Span<double> last = stackalloc double[count];
        Solve(stocks, supply, atEnd, days, last);
        last.CopyTo(stocks);
    }

    // (1 + dt out_i) y_i - dt sum_j rate_ji y_j = c_i + dt supply_i. The columns of the matrix outweigh: no pivot is needed.
    private static void Solve(
        ReadOnlySpan<double> stocks,
        ReadOnlySpan<double> supply,
        ReadOnlySpan<double> rates,
        double days,
        Span<double> result
    )
    {
        var count = stocks.Length;
        Span<double> matrix = stackalloc double[count * count];
        for (var from = 0; from < count; from++)
        {
            var leaving = 0.0;
            for (var to = 0; to <= count; to++)
            {
                var moved = days * rates[(from * (count + 1)) + to];
                leaving += moved;
                if (to < count)
                {
                    matrix[(to * count) + from] -= moved;
                }
            }

            matrix[(from * count) + from] += 1 + leaving;
            result[from] = stocks[from] + (days * supply[from]);
        }

        for (var pivot = 0; pivot < count; pivot++)
        {
            for (var row = pivot + 1; row < count; row++)
            {
                var factor = matrix[(row * count) + pivot] / matrix[(pivot * count) + pivot];
                for (var column = pivot; factor != 0 && column < count; column++)
                {
                    matrix[(row * count) + column] -= factor * matrix[(pivot * count) + column];
                }

                result[row] -= factor * result[pivot];
            }
        }

        for (var row = count - 1; row >= 0; row--)
        {
            var value = result[row];
            for (var column = row + 1; column < count; column++)
            {
                value -= matrix[(row * count) + column] * result[column];
            }

            result[row] = value / matrix[(row * count) + row];
        }
    }
}
