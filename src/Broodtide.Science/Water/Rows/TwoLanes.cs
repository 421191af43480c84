using System.Runtime.Intrinsics;

namespace Broodtide.Science.Water.Rows;

/// <summary>Two at once.</summary>
internal readonly struct TwoLanes : ILanes<Vector128<double>>
{
    public static int Count => Vector128<double>.Count;

    public static Vector128<double> All(double value) => Vector128.Create(value);

    public static Vector128<double> Load(ref double start, nuint at) => Vector128.LoadUnsafe(ref start, at);

    public static void Store(Vector128<double> vector, ref double start, nuint at) =>
        vector.StoreUnsafe(ref start, at);

    public static Vector128<double> Add(Vector128<double> left, Vector128<double> right) => left + right;

    public static Vector128<double> Subtract(Vector128<double> left, Vector128<double> right) => left - right;

    public static Vector128<double> Multiply(Vector128<double> left, Vector128<double> right) => left * right;

    public static Vector128<double> Divide(Vector128<double> left, Vector128<double> right) => left / right;

    public static Vector128<double> MultiplyAdd(
        Vector128<double> a,
        Vector128<double> b,
        Vector128<double> c
    ) => Vector128.MultiplyAddEstimate(a, b, c);

    public static Vector128<double> Root(Vector128<double> vector) => Vector128.Sqrt(vector);

    public static Vector128<double> Less(Vector128<double> left, Vector128<double> right) =>
        Vector128.LessThan(left, right);

    public static Vector128<double> AtMost(Vector128<double> left, Vector128<double> right) =>
        Vector128.LessThanOrEqual(left, right);

    public static Vector128<double> And(Vector128<double> left, Vector128<double> right) => left & right;

    public static Vector128<double> Without(Vector128<double> left, Vector128<double> right) =>
        Vector128.AndNot(left, right);

    public static Vector128<double> Choose(
        Vector128<double> mask,
        Vector128<double> where,
        Vector128<double> otherwise
    ) => Vector128.ConditionalSelect(mask, where, otherwise);

    public static uint Bits(Vector128<double> mask) => Vector128.ExtractMostSignificantBits(mask);
}
