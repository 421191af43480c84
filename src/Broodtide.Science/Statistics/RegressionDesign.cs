using Broodtide.Units;
using MathNet.Numerics.LinearAlgebra;

namespace Broodtide.Science.Statistics;

/// <summary>A factor of a regression: the level of every row, compared as text.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Levels">The level of each row.</param>
/// <param name="Baseline">The level that the others are compared with.</param>
public sealed record Factor(string Name, IReadOnlyList<string> Levels, string Baseline);

/// <summary>One column of a regression.</summary>
/// <param name="Name">Name of its coefficient.</param>
/// <param name="Term">The term it belongs to.</param>
/// <param name="Values">A number for each row.</param>
internal sealed record DesignColumn(string Name, string Term, double[] Values);

/// <summary>
/// The right side of a regression: an intercept, factors by their levels against a baseline, their interactions and
/// measured numbers. Coefficients are named <c>intercept</c>, factor followed by level (<c>location5</c>), interactions
/// joined by a colon.
/// </summary>
public sealed class RegressionDesign
{
    /// <summary>Name of the intercept.</summary>
    public const string Intercept = "intercept";

    private readonly IReadOnlyList<DesignColumn> _columns;

    private RegressionDesign(int rows, IReadOnlyList<DesignColumn> columns)
    {
        Rows = rows;
        _columns = columns;
    }

    /// <summary>Number of rows.</summary>
    public int Rows { get; }

    /// <summary>Names of the coefficients, in order.</summary>
    public IReadOnlyList<string> Names => [.. _columns.Select(column => column.Name)];

    /// <summary>Only an intercept: one mean for all rows.</summary>
    /// <param name="rows">Number of rows, 1 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Less than one row.</exception>
    public static RegressionDesign OneMean(int rows)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(rows, 1);
        return new(rows, [new(Intercept, "", [.. Enumerable.Repeat(1.0, rows)])]);
    }

    /// <summary>An intercept and terms of factors.</summary>
    /// <param name="factors">The factors, all of the same number of rows.</param>
    /// <param name="terms">Names of factors, or names joined by a colon for an interaction.</param>
    /// <exception cref="ArgumentException">
    /// A term names no factor, a baseline is no level, or the factors differ in rows.
    /// </exception>
    public static RegressionDesign OfFactors(IReadOnlyList<Factor> factors, IReadOnlyList<string> terms)
    {
        var rows = factors.Count == 0 ? 0 : factors[0].Levels.Count;
        if (factors.Any(factor => factor.Levels.Count != rows))
        {
            throw new ArgumentException("All factors have one level for each row.", nameof(factors));
        }

        var columns = terms.SelectMany(term =>
            term.Split(':')
                .Select(name => ColumnsOf(Named(factors, name)))
                .Aggregate((left, right) => [.. left.SelectMany(l => right.Select(r => Product(l, r)))])
                .Select(column => column with { Term = term })
        );
        return new(rows, [.. OneMean(rows)._columns, .. columns]);
    }

    /// <summary>The same with a measured number more.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="values">The number of each row.</param>
    /// <exception cref="ArgumentException">Not one number for each row, or the name is there already.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite.</exception>
    public RegressionDesign With(string name, IReadOnlyList<double> values)
    {
        if (values.Count != Rows || Names.Contains(name))
        {
            throw new ArgumentException(
                $"{name} needs one number for each row and a name of its own.",
                nameof(values)
            );
        }

        double[] checkedValues = [.. values.Select(value => Finite.Required(value, nameof(values)))];
        return new(Rows, [.. _columns, new(name, name, checkedValues)]);
    }

    /// <summary>The same without one term.</summary>
    /// <exception cref="ArgumentException">There is no such term.</exception>
    public RegressionDesign Without(string term)
    {
        var left = _columns
            .Where(column => !string.Equals(column.Term, term, StringComparison.Ordinal))
            .ToArray();
        return left.Length < _columns.Count && term.Length > 0
            ? new(Rows, left)
            : throw new ArgumentException($"There is no term {term}.", nameof(term));
    }

    /// <summary>The columns side by side.</summary>
    internal Matrix<double> Matrix() =>
        Matrix<double>.Build.DenseOfColumnArrays(_columns.Select(column => column.Values));

    private static Factor Named(IReadOnlyList<Factor> factors, string name) =>
        factors.SingleOrDefault(factor => string.Equals(factor.Name, name, StringComparison.Ordinal))
        ?? throw new ArgumentException($"There is no one factor {name}.", nameof(factors));

    private static DesignColumn[] ColumnsOf(Factor factor)
    {
        var levels = factor.Levels.Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal).ToArray();
        return levels.Contains(factor.Baseline)
            ?
            [
                .. levels
                    .Where(level => level != factor.Baseline)
                    .Select(level => new DesignColumn(
                        factor.Name + level,
                        factor.Name,
                        [.. factor.Levels.Select(here => here == level ? 1.0 : 0)]
                    )),
            ]
            : throw new ArgumentException(
                $"The baseline {factor.Baseline} is no level of {factor.Name}.",
                nameof(factor)
            );
    }

    private static DesignColumn Product(DesignColumn left, DesignColumn right) =>
        new($"{left.Name}:{right.Name}", "", [.. left.Values.Zip(right.Values, (l, r) => l * r)]);
}
