namespace Broodtide.Units.Tests;

public sealed class RemarkTests
{
    private static readonly Remark Full = new(
        "vessel-full",
        new("vessel", "jar 1"),
        new("volumeLitres", 3.0)
    );

    [Fact]
    public void Remarks_are_equal_when_code_and_arguments_are()
    {
        var same = new Remark("vessel-full", new("vessel", "jar 1"), new("volumeLitres", 3.0));
        Assert.Equal(Full, same);
        Assert.Equal(Full.GetHashCode(), same.GetHashCode());
        Assert.NotEqual(Full, new Remark("vessel-full", new("vessel", "jar 1"), new("volumeLitres", 4.0)));
        Assert.NotEqual(Full, new Remark("vessel-full", new Argument("vessel", "jar 1")));
        Assert.NotEqual(Full, new Remark("vessel-empty", new("vessel", "jar 1"), new("volumeLitres", 3.0)));
    }

    [Fact]
    public void An_argument_is_found_by_its_name()
    {
        Assert.Equal(3.0, Full["volumeLitres"]);
        Assert.Null(Full["colour"]);
        Assert.Equal("vessel-full(vessel: jar 1, volumeLitres: 3)", Full.ToString());
        Assert.Equal("vessel-full", new Remark("vessel-full").ToString());
    }

    [Fact]
    public void What_was_not_understood_has_a_reason_and_no_value()
    {
        var no = Parsed<string>.No(Full);
        Assert.False(no.Succeeded);
        Assert.Equal(Full, no.Reason);
        Assert.Throws<InvalidOperationException>(() => no.Value);
        var yes = Parsed<string>.Of("33.5");
        Assert.True(yes.Succeeded);
        Assert.Null(yes.Reason);
        Assert.Equal("33.5", yes.Value);
    }
}
