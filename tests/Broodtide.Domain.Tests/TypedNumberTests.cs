using System.Text;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;

namespace Broodtide.Domain.Tests;

public sealed class TypedNumberTests
{
    [Fact]
    public void Every_member_comes_back_as_it_was_written()
    {
        var fact = new ReadingTaken(
            new TypedNumber("33,5", UnitCode.PracticalSalinity, 33.5, Doubted: true),
            SampleTemperature: new TypedNumber("-1.25e1", "Cel", -12.5)
        );
        Assert.Equal(fact, Read(Encoding.UTF8.GetString(Kinds.Of(fact).Write(fact))));
    }

    [Fact]
    public void Members_in_any_order_and_members_of_later_builds_are_read()
    {
        var fact = Read(
            """{"value":{"later":{"a":[1,{"unit":"x"}]},"value":21,"unit":"Cel","typed":"\u0032\u0031"}}"""
        );
        Assert.Equal(new ReadingTaken(new TypedNumber("21", "Cel", 21)), fact);
    }

    [Theory]
    [InlineData("""{"value":{"unit":"Cel","value":21}}""")]
    [InlineData("""{"value":{"typed":"21","value":21}}""")]
    [InlineData("""{"value":{"typed":"21","unit":"Cel"}}""")]
    [InlineData("""{"value":{"typed":null,"unit":"Cel","value":21}}""")]
    [InlineData("""{"value":{"typed":"21","unit":7,"value":21}}""")]
    [InlineData("""{"value":{"typed":"21","unit":"Cel","value":"21"}}""")]
    [InlineData("""{"value":{"typed":"21","unit":"Cel","value":21,"doubted":1}}""")]
    [InlineData("""{"value":{"typed":"21","unit":"Cel","value":21,"value":22}}""")]
    [InlineData("""{"value":{"doubted":false,"doubted":false,"typed":"21","unit":"Cel","value":21}}""")]
    [InlineData("""{"value":[21]}""")]
    [InlineData("""{"value":21}""")]
    [InlineData("""{"value":{"typed":"21","unit":"Cel","value":1e999}}""")]
    public void What_is_no_typed_number_is_unreadable_and_stops_nothing(string body) =>
        Assert.IsType<UnreadableFact>(Read(body));

    private static Fact Read(string body) => Kinds.Read("reading taken", 1, Encoding.UTF8.GetBytes(body));
}
